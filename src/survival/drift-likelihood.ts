import { exp, expm1, ln } from '../chance/elementary.js';
import { LN_SQRT_TWO_PI } from './gauss-hermite.js';

/** What readings after one disturbance say: rates at moments, or how far all has moved since an origin that is not known. */
export type DriftForm = 'rate' | 'displacement';

/** The readings after one disturbance. */
export interface DriftEvent {
  /** Seconds since the disturbance. */
  readonly times: readonly number[];
  /** Nanometres a second, or nanometres, one a time. */
  readonly values: readonly number[];
  /** What each reading's error is taken to be in proportion to, such as the one stated; 1 for all where nothing is known. */
  readonly errors?: readonly number[];
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
  /** Standard deviation of a reading, in its own unit; where errors are stated, over the one stated. */
  readonly error: number;
}

/** Sums over the readings of one disturbance that no law changes; an origin that is not known is taken out of all. */
export interface PreparedEvent {
  readonly form: DriftForm;
  readonly times: readonly number[];
  /** One over the square of each reading's own error; and their sum. */
  readonly weights: readonly number[];
  readonly weight: number;
  /** Readings, and what a steady rate of 1 nm/s would give there. */
  readonly values: readonly number[];
  readonly steady: readonly number[];
  readonly valueSquares: number;
  readonly steadySquares: number;
  readonly steadyValues: number;
  /** Sum of ln of the readings' own errors. */
  readonly logErrors: number;
  /** Readings that are left to tell by: one less where the origin took one. */
  readonly count: number;
}

export function prepared({ times, values: read, errors }: DriftEvent, form: DriftForm): PreparedEvent {
  const isRate = form === 'rate';
  const weights = errors === undefined ? times.map(() => 1) : errors.map((error) => 1 / (error * error));
  const values = isRate ? read : centred(read, weights);
  const steady = isRate ? times.map(() => 1) : centred(times, weights);
  const product = (a: readonly number[], b: readonly number[]) =>
    weights.reduce((sum, weight, i) => sum + weight * a[i] * b[i], 0);
  return {
    ...{ form, times, weights, values, steady },
    weight: weights.reduce((sum, weight) => sum + weight, 0),
    valueSquares: product(values, values),
    steadySquares: product(steady, steady),
    steadyValues: product(steady, values),
    logErrors: (errors ?? []).reduce((sum, error) => sum + ln(error), 0),
    count: times.length - (isRate ? 0 : 1),
  };
}

function centred(values: readonly number[], weights: readonly number[]): readonly number[] {
  let [sum, all] = [0, 0];
  values.forEach((value, i) => {
    sum += weights[i] * value;
    all += weights[i];
  });
  return values.map((value) => value - sum / all);
}

/** Products of what a first rate of 1 nm/s gives at each reading with itself, the readings, and what a steady rate gives. */
export interface DecayingSums {
  readonly squares: number;
  readonly values: number;
  readonly steady: number;
}

export function decayingSums(
  { form, times, weights, weight, values, steady }: PreparedEvent,
  decay: number,
): DecayingSums {
  let [sum, squares, withValues, withSteady] = [0, 0, 0, 0];
  for (let i = 0; i < times.length; i += 1) {
    const one = form === 'rate' ? exp(-times[i] / decay) : -decay * expm1(-times[i] / decay);
    const weighed = weights[i] * one;
    sum += weighed;
    squares += weighed * one;
    withValues += weighed * values[i];
    withSteady += weighed * steady[i];
  }
  return {
    squares: form === 'rate' ? squares : squares - (sum * sum) / weight,
    values: withValues,
    steady: withSteady,
  };
}

/** Steps towards the likeliest rate this short are the last. */
const STILL = 1e-10;
const MOST_STEPS = 100;
const MOST_HALVINGS = 30;

/** Step of the integral, in standard deviations at the top, which leaves an error of e^-35 for a normal curve; and at most, in ln rate, of e^-32. */
const STEP = 0.75;
const LONGEST_STEP = 0.15;
/** What is this small beside the sum so far, and falls, adds nothing to it. */
const NOTHING = 1e-16;

/**
 * Log-likelihood of the readings after one disturbance, its own first rate (lognormal over disturbances) integrated out by the trapezoidal
 * rule about where it is likeliest, which for a smooth curve that dies away both ways converges faster than any power of its step (L. N.
 * Trefethen and J. A. C. Weideman, SIAM Review 56, 385, 2014). A few nodes of Gauss and Hermite do not follow the lean of a lognormal.
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
  const step = Math.min(STEP * sd, LONGEST_STEP / rateSd);
  let sum = 1;
  for (const side of [-step, step]) {
    let term = 1;
    for (let count = 1; term > NOTHING * sum; count += 1) {
      term = exp(logJoint(deviate + side * count) - value);
      sum += term;
    }
  }
  const { valueSquares, steadyValues, steadySquares, logErrors, count } = event;
  const rest = valueSquares + steady * (steady * steadySquares - 2 * steadyValues);
  const scatter = rest / (2 * variance) + count * (ln(error) + LN_SQRT_TWO_PI) + logErrors;
  return value - scatter + ln(sum * step) - LN_SQRT_TWO_PI;
}
