import { exp, ln } from '../elementary.js';
import { fittable } from './distribution.js';

/** Mean of ln T for a mean life of 1: minus the Euler-Mascheroni constant. */
const LOG_MEAN = -0.5772156649015329;

/** Constant hazard: H(x) = x / mean, f(x) = exp(-x / mean) / mean. */
export const exponential = fittable({
  title: 'exponential',
  parameters: { mean: { is: 'exposure', description: 'Mean lifetime' } },
  compile: ({ mean }) => ({
    cumulativeHazard: (exposure) => exposure / mean,
    exposureAt: (hazard) => hazard * mean,
  }),
  fit: {
    logDensity({ mean }) {
      const logMean = ln(mean);
      return (exposure) => -logMean - exposure / mean;
    },
    mean: ({ mean }) => mean,
    start: (logMean) => ({ mean: exp(logMean - LOG_MEAN) }),
  },
});
