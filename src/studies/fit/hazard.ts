import type { ExposureUnit } from '../../scenario/exposure.js';
import type { Cause } from '../../scenario/schema/scenario.js';
import type { LifeFit } from '../../survival/fit-life.js';
import type { FoundAcceleration } from './acceleration.js';
import type { FittedHazard } from './results.js';

/** Digits of what is written into a scenario: more than any log knows. */
const DIGITS = 6;

/** Digits of a covariance: with fewer, one of values that nearly follow from each other could be rounded into none. */
const COVARIANCE_DIGITS = 10;

/** As it is written into a scenario. */
export function rounded(value: number, digits = DIGITS): number {
  return Number(value.toPrecision(digits));
}

/** A symmetric matrix as it is written into a scenario. */
export function roundedAll(matrix: readonly (readonly number[])[]): readonly (readonly number[])[] {
  // One half follows the other, so that rounding leaves it symmetric.
  return matrix.map((row, i) => row.map((_, j) => rounded(matrix[Math.max(i, j)][Math.min(i, j)], COVARIANCE_DIGITS)));
}

/**
 * What a scenario says of a cause: the accelerated fit where it is taken, else the plain one.
 * @param referenceLoad in nanonewtons; null where the log does not say it
 */
export function hazardFrom(
  cause: Cause,
  per: ExposureUnit,
  plain: LifeFit,
  acceleration: FoundAcceleration | null,
  referenceLoad: number | null,
): FittedHazard {
  const taken = acceleration?.found.isTaken === true ? acceleration : null;
  const { covariance } = taken ?? plain;
  const { parameters } = taken?.found ?? plain;
  const names = parameters.map(({ name }) => name);
  return {
    cause,
    per,
    distribution: plain.distribution,
    parameters: parameters.map(({ name, value }) => ({ name, value: rounded(value) })),
    acceleration: {
      pace: exponent(taken?.found.pace?.value),
      load: exponent(taken?.found.load?.value),
      referenceLoad: referenceLoad === null ? null : rounded(referenceLoad),
    },
    uncertainty: { of: taken === null ? names : [...names, ...taken.exponents], covariance: roundedAll(covariance) },
  };
}

function exponent(value: number | undefined): number | null {
  return value === undefined ? null : rounded(value);
}
