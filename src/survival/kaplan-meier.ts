import { exp, ln } from '../chance/elementary.js';
import { assertLives, isEvent, isInterval, isWatched, type Observation } from './observation.js';
import { halfWidth } from './profile.js';

/** The estimate from one exposure to the next. */
export interface SurvivalStep {
  readonly time: number;
  /** Tips under observation just before: entered earlier, neither failed nor censored yet. One censored here still counts. */
  readonly atRisk: number;
  readonly events: number;
  readonly censored: number;
  readonly survival: number;
  /** Greenwood's; null once nothing is left. */
  readonly standardError: number | null;
  /** Log-log interval; null before the first event, and once nothing is left. */
  readonly low: number | null;
  readonly high: number | null;
}

/** The exposure by which a share of the tips has failed, null where the curve does not come so low. */
export interface CurveQuantile {
  readonly share: number;
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

/** Who is at risk, fails and is censored at each exposure at which anything ends. */
export interface RiskRow {
  readonly time: number;
  readonly atRisk: number;
  readonly events: number;
  readonly censored: number;
}

/**
 * @throws RangeError for an observation that is no life, and for one known only to an interval: Turnbull's estimate (turnbull.ts) is for those
 */
export function riskTable(observations: readonly Observation[]): RiskRow[] {
  assertLives(observations);
  if (observations.some(isInterval))
    throw new RangeError('a life is known only to an interval: use the estimate for intervals');
  const watched = observations.filter(isWatched);
  const times = [...new Set(watched.map(({ from }) => from))].sort((a, b) => a - b);
  return times.map((time) => {
    const here = watched.filter(({ from }) => from === time);
    const events = here.filter(isEvent).length;
    const atRisk = watched.filter(({ entry, from }) => entry < time && from >= time).length;
    return { time, atRisk, events, censored: here.length - events };
  });
}

/**
 * The survival curve of exact and right-censored lives, entry after zero allowed (E. L. Kaplan and P. Meier, J. Am. Stat. Assoc. 53, 457,
 * 1958), with Greenwood's standard error and intervals on the log-log scale, which stay between 0 and 1 (J. D. Kalbfleisch and R. L.
 * Prentice, The Statistical Analysis of Failure Time Data, 1980). A step at each exposure at which an event or a censoring is.
 * @param level of confidence at each exposure, in (0, 1)
 * @throws RangeError for an observation that is no life, or known only to an interval
 */
export function kaplanMeier(observations: readonly Observation[], level: number): SurvivalStep[] {
  const wanted = halfWidth(level);
  let survival = 1;
  let sum = 0;
  return riskTable(observations).map((row) => {
    const { atRisk, events } = row;
    if (events > 0) {
      survival *= (atRisk - events) / atRisk;
      sum += events / (atRisk * (atRisk - events));
    }
    if (survival === 0) return { ...row, survival, standardError: null, low: null, high: null };
    const standardError = survival * Math.sqrt(sum);
    if (survival === 1) return { ...row, survival, standardError, low: null, high: null };
    const logSurvival = ln(survival);
    const factor = exp((wanted * Math.sqrt(sum)) / -logSurvival);
    return { ...row, survival, standardError, low: exp(logSurvival * factor), high: exp(logSurvival / factor) };
  });
}

/** Shares count as equal within the rounding of their products. */
const ROUNDING = 1e-12;

/**
 * The first exposure at which a curve is as low as 1 - share, with the interval that its band gives (R. Brookmeyer and J. Crowley, Biometrics
 * 38, 29, 1982). Where the curve stays at 1 - share for a while, the middle of that while.
 * @param steps of kaplanMeier
 * @param share of tips failed, in (0, 1); 0.5 for the median
 */
export function curveQuantile(steps: readonly SurvivalStep[], share: number): CurveQuantile {
  const left = 1 - share;
  const first = (height: (step: SurvivalStep) => number | null) => {
    const falls = steps.filter((step) => step.events > 0);
    const index = falls.findIndex((step) => (height(step) ?? step.survival) <= left + ROUNDING);
    if (index < 0) return null;
    const here = falls[index];
    const isLevel = Math.abs((height(here) ?? here.survival) - left) <= ROUNDING;
    const next = isLevel && index + 1 < falls.length ? falls[index + 1].time : here.time;
    return (here.time + next) / 2;
  };
  return {
    share,
    value: first((step) => step.survival),
    low: first((step) => step.low),
    high: first((step) => step.high),
  };
}
