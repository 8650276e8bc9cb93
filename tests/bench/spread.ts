import { max, median, min } from 'simple-statistics';
import type { Figure, Slice, Used } from './job.js';

/** The middle of several measurements and how far they lie apart. */
export interface Spread {
  readonly median: number;
  readonly least: number;
  readonly most: number;
}

/** Of at least one value. */
export function spreadOf(values: readonly number[]): Spread {
  const all = [...values];
  return { median: median(all), least: min(all), most: max(all) };
}

/** Campaigns in a second of the processor. */
export function rate({ campaigns, seconds }: Slice): number {
  return campaigns / seconds.user;
}

/** Processor seconds of several runs of a command, and the most memory that any of them used. */
export function usedSpread(runs: readonly Used[]): {
  readonly user: Spread;
  readonly wall: Spread;
  readonly peak: number;
} {
  return {
    user: spreadOf(runs.map(({ seconds }) => seconds.user)),
    wall: spreadOf(runs.map(({ seconds }) => seconds.wall)),
    peak: max(runs.map(({ peak }) => peak)),
  };
}

/** A mean of so many values. */
export interface Sample extends Figure {
  readonly count: number;
}

/** Mean and standard error of several samples taken together. */
export function pooled(samples: readonly Sample[]): Sample {
  const count = samples.reduce((sum, sample) => sum + sample.count, 0);
  const mean = samples.reduce((sum, sample) => sum + sample.count * sample.mean, 0) / count;
  const squares = samples.reduce((sum, sample) => {
    const within = sample.standardError ** 2 * sample.count * (sample.count - 1);
    return sum + within + sample.count * (sample.mean - mean) ** 2;
  }, 0);
  return { count, mean, standardError: Math.sqrt(squares / (count - 1) / count) };
}

/** How many standard errors of their difference two means lie apart. */
export function apart(a: Figure, b: Figure): number {
  return Math.abs(a.mean - b.mean) / Math.sqrt(a.standardError ** 2 + b.standardError ** 2);
}
