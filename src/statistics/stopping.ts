/** Replications at the first look. */
const FIRST_LOOK = 200;

/**
 * Replications after which precision is looked at: 200, 400, 800 … Few looks keep the interval's level near what it says, where a look
 * after every replication would stop too often by luck.
 * @param look 0 for the first
 */
export function lookAt(look: number): number {
  let replications = FIRST_LOOK;
  for (let doubled = 0; doubled < look; doubled += 1) replications *= 2;
  return replications;
}

/**
 * Half-width as a share of a reference, without sign. No half-width is 0 of anything; any other is infinite against a reference of 0.
 * @param halfWidth in the unit of the reference, >= 0
 */
export function relativeHalfWidth(halfWidth: number, reference: number): number {
  return halfWidth === 0 ? 0 : halfWidth / Math.abs(reference);
}
