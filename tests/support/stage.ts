import { stringify } from 'yaml';
import { runCampaign } from '../../src/campaign/campaign.js';
import type { Outcome } from '../../src/campaign/outcome.js';
import type { RecordedStep, Recorder } from '../../src/campaign/recorder.js';
import { Luck, type Purpose, PURPOSES } from '../../src/chance/luck.js';
import { clockText } from '../../src/study/timeline.js';
import { modelOf } from './run.js';

/** Anything that YAML can say. */
export type Raw = { readonly [key: string]: unknown };

function isRaw(value: unknown): value is Raw {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** `over` laid over `under`, map by map. */
export function laidOver(under: Raw, over: Raw): Raw {
  const merged: Record<string, unknown> = { ...under };
  for (const [key, value] of Object.entries(over)) {
    const held = merged[key];
    merged[key] = isRaw(held) && isRaw(value) ? laidOver(held, value) : value;
  }
  return merged;
}

/** A pass whose scan takes `minutes`, accepted at 0.8 unless `more` says otherwise. */
export function pass(name: string, minutes: number, more: Raw = {}): Raw {
  return { name, tip: 'sharp', size: '1 um', lines: 60, lineRate: `${1 / minutes} Hz`, ...more };
}

/** A kind of tip that never blunts and starts with the same apex each time. */
export function kind(...hazards: readonly Raw[]): Raw {
  return { radius: { nominal: '10 nm', spread: 1 }, hazards };
}

/** A hazard that comes after exactly so much use (to one part in ten thousand, on luck of one half). */
export function after(use: number, hazard: Raw): Raw {
  return { per: 'image', life: { law: 'lognormal', median: use, spread: 1.0001 }, ...hazard };
}

/** One region, one scan of 10 min, every step of a fixed time, nothing that fails; always booked and attended; a perfect automatic review in no time. */
export const SCENE: Raw = {
  title: 'scene',
  plan: { regions: 1, passes: [pass('image', 10)] },
  tips: { sharp: kind() },
  noticing: { review: { by: 'automatic', time: '0 s', sensitivity: 1, falseAlarm: 0 } },
  workflows: {
    swap: {
      mishandling: { probability: 0 },
      steps: {
        setUp: '10 min',
        warmUp: '5 min',
        locate: '4 min',
        approach: '1 min',
        retract: '1 min',
        exchange: '3 min',
        align: '2 min',
        resonance: '1 min',
        relocate: { fixed: '3 min', success: 1 },
        settle: '2 min',
        changeSample: '6 min',
      },
    },
    hop: {
      mishandling: { probability: 0 },
      specimenLoss: 0,
      chip: { sites: { sharp: 9 }, pitch: '100 um' },
      steps: {
        prepare: { fixed: '30 min', success: 1 },
        setUp: '10 min',
        warmUp: '5 min',
        locate: '4 min',
        approach: '1 min',
        retract: '1 min',
        offset: '1 min',
        coarseMove: '2 min',
        chipExchange: '15 min',
        resonance: '1 min',
        settle: '2 min',
        register: { fixed: '2 min', success: 1 },
        changeSample: '6 min',
        align: '2 min',
      },
    },
  },
  strategies: [{ name: 'one', workflow: 'swap' }],
};

/** The specimen is prepared at the instrument, so that a diary shows it. */
export const HOPPING: Raw = {
  workflows: { hop: { prepareAt: 'instrument' } },
  strategies: [{ name: 'one', workflow: 'hop' }],
};

/** What a draw is worth: instrument `a`, kind or step `b`, tip, image or occurrence `c`, running count `d`. */
export type Script = Partial<Record<keyof typeof PURPOSES, (a: number, b: number, c: number, d: number) => number>>;

/** Luck of one half in everything that a script does not settle. */
export class ScriptedLuck extends Luck {
  readonly #script: Script;

  constructor(script: Script) {
    super(new Int32Array(5), 0);
    this.#script = script;
  }

  override uniform(purpose: Purpose, a: number, b: number, c: number, d: number): number {
    for (const [name, number] of Object.entries(PURPOSES)) {
      if (number !== purpose) continue;
      const entry = Object.entries(this.#script).find(([key]) => key === name);
      return entry?.[1](a, b, c, d) ?? 0.5;
    }
    return 0.5;
  }
}

/** Writes down what happens: steps as `Mo 09:00 scan 1`, events as `Mo 09:10 * flagged`, in order of time. */
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
  const outcome = runCampaign(modelOf(stringify(laidOver(SCENE, over))), new ScriptedLuck(script), minutes);
  return { outcome, minutes, lines: minutes.lines(), names: minutes.names() };
}

/** Everything after the scan with this number in the list of scans (from 1), up to the end. */
export function afterScan(names: readonly string[], count: number): readonly string[] {
  let seen = 0;
  const at = names.findIndex((name) => name.startsWith('scan ') && (seen += 1) === count);
  return at < 0 ? [] : names.slice(at + 1);
}
