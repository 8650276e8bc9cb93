import { exp, ln } from '../../chance/elementary.js';
import type { LawToFit } from './law.js';

const LN_SQRT_TWO_PI = 0.9189385332046728;

/** f(x) = φ(z) / (x ln spread), z = ln(x / median) / ln spread. */
export const lognormal: LawToFit = {
  law: 'lognormal',
  parameters: [
    { name: 'median', free: 'log', isExposure: true },
    { name: 'spread', free: 'log-log', isExposure: false },
  ],
  life: ([median, spread]) => ({ law: 'lognormal', median, spread }),
  logDensity([median, spread]) {
    const logMedian = ln(median);
    const sigma = ln(spread);
    const constant = -LN_SQRT_TWO_PI - ln(sigma);
    return (exposure) => {
      const logExposure = ln(exposure);
      const z = (logExposure - logMedian) / sigma;
      return constant - logExposure - (z * z) / 2;
    };
  },
  mean([median, spread]) {
    const sigma = ln(spread);
    return median * exp((sigma * sigma) / 2);
  },
  start: (logMean, logSd) => [exp(logMean), exp(logSd)],
};
