import { exp, ln } from './elementary.js';
import { normalScore, power } from './scores.js';

/** How long a step takes, in seconds. */
export type Duration =
  | { readonly distribution: 'fixed'; readonly value: number }
  /** Lognormal by its median and 90th percentile; both equal, or a median of 0, is a fixed time. */
  | { readonly distribution: 'lognormal'; readonly median: number; readonly p90: number }
  | { readonly distribution: 'triangular'; readonly min: number; readonly mode: number; readonly max: number };

/** Seconds that no step takes longer than, nor is written to: about a year. The far tail of a wide spread is cut here. */
export const LONGEST = 3e7;

type Lognormal = Extract<Duration, { distribution: 'lognormal' }>;
type Triangular = Extract<Duration, { distribution: 'triangular' }>;

/** Standard normal quantile at 0.9. */
const Z90 = 1.2815515655446004;

/** Standard deviation of the logarithm. */
function logSpread({ median, p90 }: Lognormal): number {
  return median === 0 ? 0 : ln(p90 / median) / Z90;
}

function triangularAt({ min, mode, max }: Triangular, u: number): number {
  const width = max - min;
  if (u * width < mode - min) return min + Math.sqrt(u * width * (mode - min));
  // Rounding may end a bit short of min where the mode is there.
  return Math.max(min, max - Math.sqrt((1 - u) * width * (max - mode)));
}

/** The duration in seconds below which a share u of tries lies: one uniform in, one time out. */
export function durationAt(duration: Duration, u: number): number {
  return secondsAt(compileDuration(duration), u);
}

/** A duration with its constants worked out once. */
export interface CompiledDuration {
  /** Of a lognormal one the standard deviation of the logarithm; 0 where it is the same each time or triangular. */
  readonly sigma: number;
  /** Median of a lognormal one, or the time that it is each time. */
  readonly median: number;
  readonly triangular: Triangular | null;
}

export function compileDuration(duration: Duration): CompiledDuration {
  switch (duration.distribution) {
    case 'fixed':
      return { sigma: 0, median: duration.value, triangular: null };
    case 'lognormal':
      return { sigma: logSpread(duration), median: duration.median, triangular: null };
    case 'triangular':
      return { sigma: 0, median: 0, triangular: duration };
  }
}

/** The seconds below which a share u of tries lies. */
export function secondsAt({ sigma, median, triangular }: CompiledDuration, u: number): number {
  if (sigma > 0) return Math.min(LONGEST, median * power(sigma * normalScore(u)));
  return triangular === null ? median : triangularAt(triangular, u);
}

/** Mean in seconds. */
export function meanDuration(duration: Duration): number {
  switch (duration.distribution) {
    case 'fixed':
      return duration.value;
    case 'lognormal': {
      const sigma = logSpread(duration);
      return duration.median * exp((sigma * sigma) / 2);
    }
    case 'triangular':
      return (duration.min + duration.mode + duration.max) / 3;
  }
}

/** Greatest lower bound in seconds: no try is ever shorter. */
export function leastDuration(duration: Duration): number {
  switch (duration.distribution) {
    case 'fixed':
      return duration.value;
    case 'lognormal':
      return logSpread(duration) === 0 ? duration.median : 0;
    case 'triangular':
      return duration.min;
  }
}
