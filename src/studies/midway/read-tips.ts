import type { KnownImage, KnownTip } from '../../execution/midway/known.js';
import type { CampaignModel, ImageModel } from '../../campaign/model.js';
import type { Judgement } from '../../campaign/state.js';
import type { ExposureUnit } from '../../scenario/exposure.js';
import { suggestion } from '../../scenario/nearest.js';
import { readQuantity } from '../../scenario/quantity.js';
import { show } from '../../scenario/show.js';
import type { Cell } from '../../analysis/sheet.js';
import { parkedLabel, type What } from './state-rows.js';
import type { Entry, Table } from './state-table.js';
import { isNone, JUDGED_WORDS, plain } from './state-words.js';
import { pointed, readUse, UseReckoning, type WrittenUse } from './tip-use.js';

/** One tip that is on or parked, as the table calls it. */
interface Held {
  readonly kind: number;
  readonly label: string;
  readonly isOn: boolean;
  readonly entry: Entry;
}

/**
 * The tips that are on or parked at an instrument, and what is known of them. The takes of the tip that is on are the last
 * ones of its kind in plan order, those of the tip of that kind that was parked last come before, and so on.
 */
export function readTips(
  model: CampaignModel,
  table: Table,
  instrument: number,
  taken: readonly ImageModel[],
  images: readonly KnownImage[],
): { readonly tip: KnownTip | null; readonly parked: readonly KnownTip[] } {
  const held = heldTips(model, table, instrument);
  checkOwners(table, instrument, held);
  let left = taken;
  const read = held.map((one): readonly [Held, KnownTip] => {
    const reader = new TipReader(model, table, instrument, one);
    const { tip, own } = reader.read(left, images);
    left = left.filter((image) => !own.includes(image));
    return [one, tip];
  });
  return {
    tip: read.find(([{ isOn }]) => isOn)?.[1] ?? null,
    parked: read
      .filter(([{ isOn }]) => !isOn)
      .map(([, tip]) => tip)
      .reverse(),
  };
}

/** The tip that is on, then those that are parked, the last one first. */
function heldTips(model: CampaignModel, table: Table, instrument: number): readonly Held[] {
  const kinds = model.kinds.map(({ name }) => name);
  const kindOf = ({ value }: Entry): number | null => {
    if (isNone(value.text)) return null;
    const kind = kinds.findIndex((name) => plain(name) === plain(value.text));
    if (kind < 0) table.fault(value.place, `no tip kind is called ${show(value.text)}${suggestion(value.text, kinds)}`);
    return kind < 0 ? null : kind;
  };
  const entries = [table.one('tip on', instrument) ?? [], table.of('tip parked', instrument)].flat();
  const found = entries.flatMap((entry) => {
    const kind = kindOf(entry);
    return kind === null ? [] : [{ kind, entry, isOn: entry.what === 'tip on' }];
  });
  const parked = found.filter(({ isOn }) => !isOn);
  const held = found.map((one): Held => {
    const isOnly = found.filter(({ kind }) => kind === one.kind).length === 1;
    const label = parkedLabel(kinds[one.kind], one.isOn || isOnly ? null : parked.indexOf(one));
    const { text } = one.entry.which;
    return { ...one, label: one.isOn || text === '' ? label : text };
  });
  const isTwice = ({ label }: Held, i: number) => held.slice(0, i).some((other) => plain(other.label) === plain(label));
  for (const { label, entry } of held.filter(isTwice))
    table.fault(entry.place, `a tip called ${show(label)} stands here for the second time`);
  return [...held.filter(({ isOn }) => isOn), ...held.filter(({ isOn }) => !isOn).reverse()];
}

const OF_TIPS: readonly What[] = ['tip use', 'tip checked', 'tip radius', 'tip judged'];

/** Whether a row is about a tip: it calls it by its name, or names none and the tip is on. */
function isAbout({ which }: Entry, { label, isOn }: Held): boolean {
  return which.text === '' ? isOn : plain(which.text) === plain(label);
}

/** Rows about tips that are neither on nor parked tell nothing. */
function checkOwners(table: Table, instrument: number, held: readonly Held[]): void {
  const labels = held.map(({ label }) => label);
  for (const what of OF_TIPS) {
    for (const entry of table.of(what, instrument)) {
      const { which } = entry;
      if (!held.some((one) => isAbout(entry, one)))
        table.fault(which.place, `no tip of kind ${show(which.text)} is on or parked${suggestion(which.text, labels)}`);
    }
  }
}

class TipReader {
  private readonly kind: number;
  private readonly name: string;

  constructor(
    private readonly model: CampaignModel,
    private readonly table: Table,
    private readonly instrument: number,
    private readonly held: Held,
  ) {
    this.kind = held.kind;
    this.name = held.label;
  }

  /** The tip, and which of the images that were taken are by it. */
  read(
    taken: readonly ImageModel[],
    images: readonly KnownImage[],
  ): { readonly tip: KnownTip; readonly own: readonly ImageModel[] } {
    const own = taken.filter(({ pass }) => pass.kind === this.kind);
    const judgement = this.judgement();
    // A failed check makes the takes since the last passed one suspect: flagged, though no review flagged them.
    const suspects = judgement === 'failed a check' && this.model.settings.noticing.check?.repeatSuspects === true;
    const unflagged = suspects ? own : own.filter(({ number }) => images[number].fate !== 'flagged');
    const flagged =
      judgement === 'flagged by an image'
        ? own.filter(({ number }) => images[number].fate === 'flagged').slice(-1)
        : [];
    const use = new UseReckoning(this.model, this.kind, this.writtenUse());
    const whole = Math.floor(use.images + 1e-9);
    const ago = this.checkedAgo(whole);
    const scans = Math.max(0, (ago ?? whole) - flagged.length);
    const since = scans === 0 ? [] : unflagged.slice(-scans);
    const tip: KnownTip = {
      kind: this.kind,
      use: use.in([...since, ...flagged]),
      isChecked: ago !== null,
      since: since.map(({ number }) => number),
      flaggedImage: flagged.at(0)?.number ?? null,
      judgement,
      radius: this.radius(),
    };
    return { tip, own: [...(whole === 0 ? [] : unflagged.slice(-whole)), ...flagged] };
  }

  private rows(what: What): readonly Entry[] {
    return this.table.of(what, this.instrument).filter((entry) => isAbout(entry, this.held));
  }

  private row(what: What): Cell | null {
    const [first, ...more] = this.rows(what);
    for (const { place } of more) this.table.fault(place, `\`${what}\` stands here for the second time`);
    return this.rows(what).length === 0 ? null : first.value;
  }

  private writtenUse(): WrittenUse {
    const read = new Map<ExposureUnit, number>();
    const rows = this.rows('tip use');
    for (const { value } of rows) {
      const reading = readUse(value.text);
      if (!reading.ok) this.table.fault(value.place, reading.message);
      else if (read.has(reading.value.unit))
        this.table.fault(value.place, `\`tip use\` counted per ${reading.value.unit} stands here for the second time`);
      else read.set(reading.value.unit, reading.value.value);
    }
    if (rows.length === 0) this.sayUseIsMissing();
    return read;
  }

  private sayUseIsMissing(): void {
    this.table.fault(
      this.held.entry.place,
      `no row says how much the tip ${show(this.name)} was used: \`tip use,${this.name},12 images\` is wanted`,
    );
  }

  /** Scans since the last passed check; null where it never passed one. */
  private checkedAgo(used: number): number | null {
    const cell = this.row('tip checked');
    if (cell === null || isNone(cell.text) || plain(cell.text) === 'never') return null;
    const match = /^(\d{1,9})(?:\s*(?:images?|scans?)(?:\s+ago)?)?$/u.exec(cell.text);
    if (match === null) {
      this.table.fault(cell.place, `read ${show(cell.text)}; \`5 images ago\` or \`never\` is wanted`);
      return null;
    }
    const ago = Number(match[1]);
    if (ago <= used) return ago;
    this.table.fault(cell.place, `read ${show(cell.text)}, and yet the tip was used for ${used} whole images only`);
    return null;
  }

  private radius(): number | null {
    const cell = this.row('tip radius');
    if (cell === null || isNone(cell.text)) return null;
    const reading = readQuantity('length', pointed(cell.text));
    if (reading.ok && reading.value > 0 && reading.value < 1e6) return reading.value;
    this.table.fault(
      cell.place,
      reading.ok ? `read ${show(cell.text)}; a length such as \`9.5 nm\` is wanted` : reading.message,
    );
    return null;
  }

  private judgement(): Judgement {
    const cell = this.row('tip judged');
    return cell === null ? 'sound' : (this.table.word(cell, JUDGED_WORDS) ?? 'sound');
  }
}
