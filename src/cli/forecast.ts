import { availableParallelism } from 'node:os';
import { performance } from 'node:perf_hooks';
import { runJob } from '../execution/in-process.js';
import type { LoadedScenario } from '../scenario/load.js';
import { fewestCampaigns } from '../studies/compare/compare.js';
import { durationText } from '../wording/numbers.js';

/** Seconds since the program began, on the wall and of the processors. */
export interface Used {
  readonly wall: number;
  readonly processor: number;
}

export function usedSoFar(): Used {
  const { user, system } = process.cpuUsage();
  return { wall: performance.now() / 1000, processor: (user + system) / 1e6 };
}

/** Seconds of the processors from which on a person is told how long it takes. */
export const LONG = 10;
/** Seconds of the processors in which the pace shows, and in which getting ready no longer counts. */
const MEASURED = 0.5;
const READY = 3;

/** Says how long a study still takes where that is long, by the pace of what is done; again where it takes twice as long after all. */
export class Forecast {
  private phase: string | null = null;
  private from: Used & { readonly done: number };
  private said = 0;

  constructor(
    private readonly say: (text: string) => void,
    private readonly used: () => Used,
  ) {
    this.from = { ...used(), done: 0 };
  }

  /** @param of null where the end is not known */
  update(phase: string, done: number, of: number | null): void {
    const now = this.used();
    if (phase !== this.phase) {
      // What came before the first campaigns of a phase is told from them only where they take long.
      const isMeasured = this.phase === null && now.processor - this.from.processor > READY;
      this.phase = phase;
      this.from = isMeasured ? { ...this.from, done: 0 } : { ...now, done };
    }
    const { wall, processor, done: before } = this.from;
    const spent = now.processor - processor;
    if (of === null || done <= before || spent < MEASURED) return;
    const ahead = (of - done) / (done - before);
    const total = now.processor + spent * ahead;
    if (total < Math.max(LONG, 2 * this.said) || ahead <= 0) return;
    this.said = total;
    this.say(`${phase}: about ${durationText(Math.max(1, Math.round((now.wall - wall) * ahead)))} left`);
  }
}

/** Seconds of the processor for which campaigns are tried before a study. */
const TRIED = 0.5;

/**
 * How long a comparison takes here at least, where that is long; null where it is not. By the first campaigns of each strategy,
 * which are played again when it begins.
 */
export function comparisonTakes(loaded: LoadedScenario): string | null {
  const { strategies, base } = loaded;
  const began = usedSoFar().processor;
  let pace = 0;
  for (let [from, count, spent] = [1, 1, 0]; spent < TRIED; from += count, count *= 2) {
    const before = usedSoFar().processor;
    runJob({ experiment: { kind: 'strategies', strategies }, seed: base.seed, from, to: from + count - 1, wants: {} });
    const now = usedSoFar().processor;
    // The first ones are slow, as the program is not warm.
    pace = (now - before) / (count * strategies.length);
    spent = now - began;
  }
  const seconds = fewestCampaigns(loaded) * pace;
  if (seconds < LONG) return null;
  return `compare takes about ${durationText(Math.round(seconds / availableParallelism()))} or more here`;
}
