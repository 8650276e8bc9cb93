import { exp, expm1, ln } from '../chance/elementary.js';
import { LN_SQRT_TWO_PI, NODES } from './gauss-hermite.js';

/** What readings after one disturbance say: rates at moments, or how far all has moved since an origin that is not known. */
export type DriftForm = 'rate' | 'displacement';

/** The readings after one disturbance. */
export interface DriftEvent {
  /** Seconds since the disturbance. */
  readonly times: readonly number[];
  /** Nanometres a second, or nanometres, one a time. */
  readonly values: readonly number[];
}

/** How rates lie over disturbances, how they go on, and how readings scatter. */
export interface DriftLaw {
  /** ln of the median first rate (nm/s), and the standard deviation of its logarithm. */
  readonly logRate: number;
  readonly rateSd: number;
  /** Seconds. */
  readonly decay: number;
  /** Nanometres a second. */
  readonly steady: number;
  /** Standard deviation of a reading, in its own unit. */
  readonly error: number;
}

/** Sums over the readings of one disturbance that no law changes; an origin that is not known is taken out of all. */
export interface PreparedEvent {
  readonly form: DriftForm;
  readonly times: readonly number[];
  /** Readings, and what a steady rate of 1 nm/s would give there. */
  readonly values: readonly number[];
  readonly steady: readonly number[];
  readonly valueSquares: number;
  readonly steadySquares: number;
  readonly steadyValues: number;
  /** Readings that are left to tell by: one less where the origin took one. */
  readonly count: number;
}

export function prepared({ times, values: read }: DriftEvent, form: DriftForm): PreparedEvent {
  const isRate = form === 'rate';
  const values = isRate ? read : centred(read);
  const steady = isRate ? times.map(() => 1) : centred(times);
  return {
    ...{ form, times, values, steady },
    valueSquares: product(values, values),
    steadySquares: product(steady, steady),
    steadyValues: product(steady, values),
    count: times.length - (isRate ? 0 : 1),
  };
}

function centred(values: readonly number[]): readonly number[] {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return values.map((value) => value - mean);
}

function product(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, one, i) => sum + one * b[i], 0);
}

/** Products of what a first rate of 1 nm/s gives at each reading with itself, the readings, and what a steady rate gives. */
export interface DecayingSums {
  readonly squares: number;
  readonly values: number;
  readonly steady: number;
}

export function decayingSums({ form, times, values, steady }: PreparedEvent, decay: number): DecayingSums {
  let [sum, squares, withValues, withSteady] = [0, 0, 0, 0];
  for (let i = 0; i < times.length; i += 1) {
    const one = form === 'rate' ? exp(-times[i] / decay) : -decay * expm1(-times[i] / decay);
    sum += one;
    squares += one * one;
    withValues += one * values[i];
    withSteady += one * steady[i];
  }
  return {
    squares: form === 'rate' ? squares : squares - (sum * sum) / times.length,
    values: withValues,
    steady: withSteady,
  };
}

/** Steps towards the likeliest rate this short are the last. */
const STILL = 1e-10;
const MOST_STEPS = 100;
const MOST_HALVINGS = 30;

/**
 * Log-likelihood of the readings after one disturbance, its own first rate (lognormal over disturbances) integrated out by adaptive
 * Gauss-Hermite quadrature about where it is likeliest (J. C. Pinheiro and D. M. Bates, J. Comput. Graph. Stat. 4, 12, 1995).
 */
export function eventLogLikelihood(event: PreparedEvent, law: DriftLaw): number {
  const { logRate, rateSd, decay, steady, error } = law;
  const sums = decayingSums(event, decay);
  const variance = error * error;
  const information = sums.squares / variance;
  const pull = (sums.values - steady * sums.steady) / variance;
  const rateAt = (deviate: number) => exp(logRate + rateSd * deviate);
  const logJoint = (deviate: number) => {
    const rate = rateAt(deviate);
    return rate * (pull - (information * rate) / 2) - (deviate * deviate) / 2;
  };
  let deviate = 0;
  let value = logJoint(deviate);
  for (let count = 0; count < MOST_STEPS; count += 1) {
    const rate = rateAt(deviate);
    const slope = rateSd * rate * (pull - information * rate) - deviate;
    const step = slope / (1 + rateSd * rateSd * information * rate * rate);
    if (Math.abs(step) < STILL) break;
    let share = 1;
    let next = logJoint(deviate + step);
    for (let halvings = 0; halvings < MOST_HALVINGS && !(next >= value); halvings += 1) {
      share /= 2;
      next = logJoint(deviate + share * step);
    }
    if (!(next >= value)) break;
    deviate += share * step;
    value = next;
  }
  const rate = rateAt(deviate);
  const curvature = 1 + rateSd * rateSd * rate * (2 * information * rate - pull);
  const sd = 1 / Math.sqrt(curvature > 0 ? curvature : 1 + rateSd * rateSd * information * rate * rate);
  let sum = 0;
  for (const { at, weight } of NODES) sum += weight * exp(logJoint(deviate + Math.SQRT2 * sd * at) - value + at * at);
  const { valueSquares, steadyValues, steadySquares, count } = event;
  const rest = valueSquares + steady * (steady * steadySquares - 2 * steadyValues);
  const scatter = rest / (2 * variance) + count * (ln(error) + LN_SQRT_TWO_PI);
  // Of the standard normal 1/√2π is left, of the quadrature's change of scale √2·sd.
  return value - scatter + ln((sum * sd) / Math.sqrt(Math.PI));
}
