import { exp, ln } from '../../chance/elementary.js';
import type { LawToFit } from './law.js';

/** Mean of ln T for a mean life of 1: minus the Euler-Mascheroni constant. */
const LOG_MEAN = -0.5772156649015329;

/** f(x) = exp(-x / mean) / mean. */
export const exponential: LawToFit = {
  law: 'exponential',
  parameters: [{ name: 'mean', free: 'log', isExposure: true }],
  life: ([mean]) => ({ law: 'exponential', mean }),
  logDensity([mean]) {
    const logMean = ln(mean);
    return (exposure) => -logMean - exposure / mean;
  },
  mean: ([mean]) => mean,
  start: (logMean) => [exp(logMean - LOG_MEAN)],
};
