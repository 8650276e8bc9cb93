import type { ExposureUnit } from '../../scenario/exposure.js';
import type { Cause } from '../../scenario/schema/scenario.js';
import { fitLife } from '../../survival/fit-life.js';
import type { FittedDistribution } from '../../survival/distributions.js';
import { forCause, isEvent } from '../../survival/observation.js';
import { livesIn, mayBe } from './lives.js';
import { medianOf } from './median.js';
import type { TipRow } from './rows.js';
import type { SuspicionBounds } from './results.js';

/** The two ends between which tips taken off on suspicion leave a cause; null where none may have gone by it. */
export function suspicionBounds(
  rows: readonly TipRow[],
  per: ExposureUnit,
  cause: Cause,
  distribution: FittedDistribution,
  level: number,
): SuspicionBounds | null {
  const tips = livesIn(rows, per).filter(({ row }) => mayBe(row, cause)).length;
  if (tips === 0) return null;
  const bound = (suspicions: Cause | null) => {
    const observations = forCause(livesIn(rows, per, suspicions), cause);
    const fit = fitLife(distribution, observations, level);
    return {
      events: observations.filter(isEvent).length,
      median: fit.converged ? medianOf(fit, observations) : null,
    };
  };
  return { tips, asSound: bound(null), asEvents: bound(cause) };
}
