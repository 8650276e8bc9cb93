import { ln } from '../../chance/elementary.js';
import type { Cause } from '../../scenario/schema/scenario.js';
import { type Accelerator, fitAccelerated } from '../../survival/accelerated.js';
import type { LifeFit } from '../../survival/fit-life.js';
import { forCause } from '../../survival/observation.js';
import type { TipLife } from './lives.js';
import type { Acceleration } from './results.js';

/** An acceleration, with the distribution's parameters at pace 1 and the reference load. */
export interface FoundAcceleration {
  readonly found: Acceleration;
  /** Exponents that follow the parameters in the covariance. */
  readonly exponents: readonly Accelerator[];
  readonly covariance: readonly (readonly number[])[];
}

/**
 * How pace and load change these lives, by accelerated-failure-time regression with the distribution of the plain fit; null where the log
 * knows only one load and one pace, or does not tell what they do. A row without a pace is at the usual one; loads count only where
 * every row has one.
 */
export function accelerationOf(
  plain: LifeFit,
  lives: readonly TipLife[],
  cause: Cause,
  level: number,
): FoundAcceleration | null {
  const reference = referenceLoad(lives);
  const observations = lives.flatMap((life) => {
    const { load, pace } = life.row;
    const lnLoad = reference === null || load === null ? 0 : ln(load / reference);
    return forCause([life], cause).map((observation) => ({ ...observation, lnPace: ln(pace ?? 1), lnLoad }));
  });
  const fit = fitAccelerated(plain.distribution, observations, level);
  if (!fit.converged) return null;
  const exponentOf = (wanted: Accelerator) => {
    const found = fit.exponents.find(({ name }) => name === wanted);
    return found === undefined ? null : { value: found.value, low: found.low, high: found.high };
  };
  const aicGain = plain.aic - fit.aic;
  return {
    found: {
      pace: exponentOf('pace'),
      load: exponentOf('load'),
      parameters: fit.parameters.map(({ name, value, low, high }) => ({ name, value, low, high })),
      referenceLoad: reference,
      aicGain,
      isTaken: aicGain > 0,
    },
    exponents: fit.exponents.map(({ name }) => name),
    covariance: fit.covariance,
  };
}

/** A load in the middle of those of the log, in nanonewtons; null where a row does not say it. */
export function referenceLoad(lives: readonly TipLife[]): number | null {
  const loads = lives.map(({ row }) => row.load ?? Number.NaN).sort((a, b) => a - b);
  const middle = loads[Math.floor((loads.length - 1) / 2)];
  return loads.some((load) => Number.isNaN(load)) ? null : middle;
}
