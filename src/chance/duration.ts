import { exp, ln } from './elementary.js';
import { normalQuantile } from './normal.js';

/** How long a step takes, in seconds. */
export type Duration =
  | { readonly law: 'fixed'; readonly value: number }
  /** Lognormal by its median and 90th percentile; both equal, or a median of 0, is a fixed time. */
  | { readonly law: 'lognormal'; readonly median: number; readonly p90: number }
  | { readonly law: 'triangular'; readonly min: number; readonly mode: number; readonly max: number };

/** Seconds that no step takes longer than, nor is written to: about a year. The far tail of a wide spread is cut here. */
export const LONGEST = 3e7;

type Lognormal = Extract<Duration, { law: 'lognormal' }>;
type Triangular = Extract<Duration, { law: 'triangular' }>;

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
  switch (duration.law) {
    case 'fixed':
      return duration.value;
    case 'lognormal':
      return compileDuration(duration)(u);
    case 'triangular':
      return triangularAt(duration, u);
  }
}

/** The inverse distribution function of a duration with its constants worked out once: a share u in, seconds out. */
export function compileDuration(duration: Duration): (u: number) => number {
  if (duration.law !== 'lognormal') return (u) => durationAt(duration, u);
  const { median } = duration;
  const sigma = logSpread(duration);
  return sigma === 0 ? () => median : (u) => Math.min(LONGEST, median * exp(sigma * normalQuantile(u)));
}

/** Mean in seconds. */
export function meanDuration(duration: Duration): number {
  switch (duration.law) {
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
  switch (duration.law) {
    case 'fixed':
      return duration.value;
    case 'lognormal':
      return logSpread(duration) === 0 ? duration.median : 0;
    case 'triangular':
      return duration.min;
  }
}
