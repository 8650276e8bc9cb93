import type { LifeFit } from '../../survival/fit-life.js';
import { goodnessOfFit } from '../../survival/goodness.js';
import type { Observation } from '../../survival/observation.js';
import type { CauseFit } from './results.js';

/** A uniform number strictly between 0 and 1, for a sample and an index within it. */
export type Draws = (sample: number, index: number) => number;

/**
 * Whether the lives can be of the distribution fitted to them, by parametric bootstrap: Anderson and Darling's distance where every event is known
 * exactly, else Kolmogorov and Smirnov's. Null where no samples are asked for, or none could be fitted.
 */
export function goodnessOf(
  fit: LifeFit,
  observations: readonly Observation[],
  { samples, draws }: { readonly samples: number; readonly draws: Draws },
): CauseFit['goodness'] {
  if (samples === 0) return null;
  const { largest, andersonDarling, replications } = goodnessOfFit(fit, observations, draws, samples);
  const { value, pValue } = andersonDarling ?? largest;
  if (replications === 0) return null;
  return {
    statistic: andersonDarling === null ? 'Kolmogorov-Smirnov' : 'Anderson-Darling',
    value,
    p: pValue,
    samples: replications,
  };
}
