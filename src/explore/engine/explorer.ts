import type { Summary } from '../../analysis/results.js';
import { compareWork, WANTS } from '../../studies/compare/compare.js';
import { worthWork } from '../../studies/worth/worth.js';
import { withSpread } from '../../scenario/ends.js';
import { splitQuantity } from '../../scenario/quantity.js';
import type { LoadedScenario } from '../../scenario/load.js';
import type { Answer, Slot, ToPage } from '../messages.js';
import { against, type Collected } from './against.js';
import { alongWork, tunedWork } from './along.js';
import { formOf } from './form.js';
import { KnownCampaigns } from './known-campaigns.js';
import { SlicedRun } from './run.js';
import { type Setting, settingOf } from './setting.js';
import { type WrittenValue, writeValue } from './write-value.js';
import { MOST, stagesUpTo } from './stages.js';

/** Milliseconds for which a setting must have been shown to count as the last one: a slider passes many on its way. */
const SETTLED = 700;
/** Milliseconds between two words on how far it is. */
const TELLING = 100;

/** Draws of which the page says what is worth measuring: a quarter of those of the command, so that it takes seconds. */
const DRAWS = 500;

const PHASES: Readonly<Record<string, string>> = {
  replications: 'Simulating',
  'parameter-uncertainty': 'Drawing uncertain parameters',
  assumptions: 'Trying the limits of unmeasured values',
};

/** Thrown where a newer setting is asked for. */
class Dropped extends Error {}

interface Shown extends Setting {
  readonly loaded: LoadedScenario;
  readonly since: number;
}

/** The worker's end of the page: holds the text, and answers it in growing batches until there is a newer one. */
export class Explorer {
  private readonly known = new KnownCampaigns();
  private version = 0;
  private text = '';
  private shown: Shown | null = null;
  private last: Shown | null = null;
  private most = MOST;
  private readonly pinned = new Map<Slot, Shown>();
  private told = 0;
  /** Counts what was asked for: an answer to what came before is let go. */
  private turn = 0;
  /** The same of looks along a range. */
  private looks = 0;

  /** @param tell posts a message to the page, @param rest resolves once waiting messages have come in */
  constructor(
    private readonly tell: (message: ToPage) => void,
    private readonly rest: () => Promise<void>,
  ) {}

  /** Takes a new text in and answers it. */
  async read(version: number, text: string): Promise<void> {
    this.version = version;
    this.text = text;
    const setting = settingOf(text);
    const { loaded, faults } = setting;
    const form = loaded === null ? null : formOf(loaded);
    this.tell({ kind: 'reading', version, reading: { text, faults, form } });
    if (loaded === null) return;
    const now = performance.now();
    const { shown } = this;
    if (shown !== null && now - shown.since > SETTLED && shown.text !== text) this.last = shown;
    this.shown = { ...setting, loaded, since: now };
    await this.answer(version, this.shown);
  }

  /** Puts one value into the text and answers it. */
  async put(version: number, path: string, value: string): Promise<void> {
    if (this.shown === null) return;
    const written = this.written(this.shown.loaded, path, value);
    if (written.ok) {
      await this.read(version, written.text);
      return;
    }
    this.version = version;
    const faults = written.messages.map((message) => ({
      message,
      path,
      line: 1,
      column: 1,
      severity: 'error' as const,
    }));
    this.tell({ kind: 'reading', version, reading: { text: this.text, faults, form: null } });
  }

  /** The text with a value put into it; the spread of a step's time goes along with its usual time, as along a range. */
  private written(loaded: LoadedScenario, path: string, value: string): WrittenValue {
    let written: WrittenValue = { ok: true, text: this.text };
    for (const each of withSpread(loaded.register, [{ path, value }])) {
      if (!written.ok) return written;
      written = writeValue(written.text, loaded, each.path, each.path === path ? value : rounded(String(each.value)));
    }
    return written;
  }

  /** Holds the present setting beside those to come, or lets one go. */
  async pin(slot: Slot, isPinned: boolean): Promise<void> {
    if (isPinned && this.shown !== null) this.pinned.set(slot, this.shown);
    else this.pinned.delete(slot);
    await this.again();
  }

  /** Runs what is set along the range of one value, beside the answer; a newer wish takes its place. */
  async along(path: string): Promise<void> {
    this.looks += 1;
    const { looks, version, shown } = this;
    if (shown === null) return;
    const run = new SlicedRun(this.known, async () => {
      await this.rest();
      if (this.looks !== looks || this.version !== version) throw new Dropped();
    });
    try {
      let along = await run.resultOf(alongWork(shown.loaded, shown.loaded.base.seed, path));
      this.tell({ kind: 'along', version, along });
      while (along !== null && along.isTuning !== null) {
        along = await run.resultOf(tunedWork(shown.loaded, along));
        this.tell({ kind: 'along', version, along });
      }
    } catch (error) {
      if (!(error instanceof Dropped)) this.tell({ kind: 'failure', version, message: messageOf(error) });
    }
  }

  /** Says what it is worth to know each uncertain value of what is set, from draws of its own. */
  async worth(): Promise<void> {
    const { version, shown } = this;
    if (shown === null) return;
    const run = new SlicedRun(this.known, async () => {
      await this.rest();
      if (this.version !== version) throw new Dropped();
    });
    try {
      const worth = await run.resultOf(
        worthWork(shown.loaded, { file: 'scenario.yaml', sha256: '', toolVersion: '', draws: DRAWS }),
      );
      this.tell({ kind: 'worth', version, worth });
    } catch (error) {
      if (!(error instanceof Dropped)) this.tell({ kind: 'failure', version, message: messageOf(error) });
    }
  }

  async runTo(most: number): Promise<void> {
    this.most = most;
    await this.again();
  }

  private async again(): Promise<void> {
    if (this.shown === null || this.shown.text !== this.text) return;
    this.last = this.last?.text === this.text ? null : this.last;
    await this.answer(this.version, this.shown);
  }

  private async answer(version: number, shown: Shown): Promise<void> {
    this.turn += 1;
    const { turn } = this;
    const run = new SlicedRun(this.known, async () => {
      await this.rest();
      if (this.turn !== turn) throw new Dropped();
    });
    try {
      for (const replications of stagesUpTo(this.most)) {
        const summary = await this.summaryOf(run, shown, replications, true);
        this.tell({ kind: 'answer', version, answer: await this.answerOf(run, shown, summary, false) });
        await this.rest();
        if (this.turn !== turn) return;
      }
      const whole = await this.summaryOf(run, shown, this.most, false);
      this.tell({ kind: 'answer', version, answer: await this.answerOf(run, shown, whole, true) });
    } catch (error) {
      if (error instanceof Dropped) return;
      this.tell({ kind: 'failure', version, message: messageOf(error) });
    }
  }

  private async summaryOf(run: SlicedRun, { loaded }: Shown, replications: number, isPreliminary: boolean) {
    const { version } = this;
    const { summary } = await run.resultOf(
      compareWork(loaded, {
        ...{ file: 'scenario.yaml', sha256: '', toolVersion: '', replications, isPreliminary },
        onProgress: ({ phase, done, of }) => {
          const now = performance.now();
          if (now - this.told < TELLING) return;
          this.told = now;
          this.tell({ kind: 'progress', version, phase: PHASES[phase] ?? phase, share: done / of });
        },
      }),
    );
    return withoutImages(summary);
  }

  private async answerOf(run: SlicedRun, shown: Shown, summary: Summary, isTried: boolean): Promise<Answer> {
    const now = this.collected('now', shown);
    const slots = [...this.pinned].sort(([a], [b]) => (a < b ? -1 : 1));
    const pinned = [];
    for (const [slot, each] of slots)
      pinned.push({ slot, summary: await this.summaryOf(run, each, summary.replications, true) });
    const held = slots.map(([slot, each]) => this.collected(slot, each));
    const { last: before } = this;
    const isHeld = slots.some(([, each]) => each.text === before?.text);
    const last = before === null || isHeld ? [] : [this.collected('the last setting', before)];
    // Of two that are pinned the one that is set now says by "from A to B" what changed since the other.
    const isOneOfTwo = held.length === 2 && slots.some(([, each]) => each.text === shown.text);
    const pairs = [...last, ...(isOneOfTwo ? [] : held)].map((from) => against(from, now));
    const between = held.length === 2 ? [against(held[0], held[1])] : [];
    return { summary, isTried, pinned, against: [...pairs, ...between].flatMap((each) => each ?? []) };
  }

  private collected(label: string, { loaded }: Shown): Collected {
    const { seed } = loaded.base;
    return {
      label,
      names: loaded.strategies.map(({ name }) => name),
      collectors: loaded.strategies.map((strategy) => this.known.collected(strategy, { seed, wants: WANTS })),
    };
  }
}

/** Images and single replications are not shown, and there may be many. */
function withoutImages(summary: Summary): Summary {
  return { ...summary, shown: [], strategies: summary.strategies.map((each) => ({ ...each, images: [] })) };
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

/** A quantity in three digits, as a person writes it. */
function rounded(text: string): string {
  const parts = splitQuantity(text);
  return parts === null ? text : `${Number(parts.number.toPrecision(3))} ${parts.unit}`;
}
