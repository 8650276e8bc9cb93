import { runCampaign } from '../../src/campaign/campaign.js';
import type { Outcome } from '../../src/campaign/outcome.js';
import type { RecordedStep, Recorder } from '../../src/campaign/recorder.js';
import { Luck, type Purpose, PURPOSES } from '../../src/chance/luck.js';
import { clockText } from '../../src/analysis/timeline.js';
import type { Raw } from './run.js';
import { sceneModel } from './scene.js';

/** What a draw is worth: instrument `a`, kind or step `b`, tip, image or occurrence `c`, running count `d`. */
export type Script = Partial<Record<keyof typeof PURPOSES, (a: number, b: number, c: number, d: number) => number>>;

/** Luck of one half in everything that a script does not settle. */
export class ScriptedLuck extends Luck {
  readonly #script: Script;
  /** Indices of the draw asked for last. */
  #last = { a: 0, b: 0, c: 0, d: 0 };

  constructor(script: Script) {
    super(new Int32Array(5), 0);
    this.#script = script;
  }

  override drawCompanion(): void {
    const { a, b, c, d } = this.#last;
    this.draw(PURPOSES.stepSuccess, a, b, c, d);
  }

  override draw(purpose: Purpose, a: number, b: number, c: number, d: number): void {
    this.#last = { a, b, c, d };
    const named = Object.entries(PURPOSES).find(([, number]) => number === purpose);
    const entry = Object.entries(this.#script).find(([key]) => key === named?.[0]);
    this.drawn[0] = entry?.[1](a, b, c, d) ?? 0.5;
  }
}

/** Writes down what happens: steps as `Mon 09:00 scan 1`, events as `Mon 09:10 * flagged`, in order of time. */
export class Minutes implements Recorder {
  readonly steps: RecordedStep[] = [];
  /** Moments at which late reviews ended. */
  readonly lateReviews: number[] = [];
  private readonly rows: { readonly time: number; readonly instrument: number; readonly text: string }[] = [];

  step(record: RecordedStep): void {
    this.steps.push(record);
    const { step, take, activity, start, instrument } = record;
    const what = step === 'wait' ? activity : step;
    this.rows.push({ time: start, instrument, text: take === null ? what : `${what} ${take.image.number + 1}` });
  }

  event(time: number, instrument: number, what: string): void {
    if (what === 'late review') this.lateReviews.push(time);
    this.rows.push({ time, instrument, text: `* ${what}` });
  }

  tip(): void {
    // The state of tips is told by the outcome.
  }

  /** Everything of one instrument, with the clock. */
  lines(instrument = 0): readonly string[] {
    return this.rows
      .filter((row) => row.instrument === instrument)
      .sort((a, b) => a.time - b.time)
      .map(({ time, text }) => `${clockText(time).replace(/:00$/u, '')} ${text}`);
  }

  /** The steps of one instrument alone, without the clock. */
  names(instrument = 0): readonly string[] {
    return this.rows
      .filter((row) => row.instrument === instrument && !row.text.startsWith('*'))
      .sort((a, b) => a.time - b.time)
      .map(({ text }) => text);
  }
}

export interface Played {
  readonly outcome: Outcome;
  readonly minutes: Minutes;
  readonly lines: readonly string[];
  readonly names: readonly string[];
}

/** The scene with what a test lays over it, played on scripted luck. */
export function play(over: Raw, script: Script = {}): Played {
  const minutes = new Minutes();
  const outcome = runCampaign(sceneModel(over), new ScriptedLuck(script), minutes);
  return { outcome, minutes, lines: minutes.lines(), names: minutes.names() };
}

/** Everything after the scan with this number in the list of scans (from 1), up to the end. */
export function afterScan(names: readonly string[], count: number): readonly string[] {
  let seen = 0;
  const at = names.findIndex((name) => name.startsWith('scan ') && (seen += 1) === count);
  return at < 0 ? [] : names.slice(at + 1);
}
