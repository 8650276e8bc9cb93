import { exp, gammaln, ln } from '../../chance/elementary.js';
import type { LawToFit } from './law.js';

/** f(x) = (x / scale)^(shape - 1) exp(-x / scale) / (scale Γ(shape)). */
export const gamma: LawToFit = {
  law: 'gamma',
  parameters: [
    { name: 'shape', free: 'log', isExposure: false },
    { name: 'scale', free: 'log', isExposure: true },
  ],
  life: ([shape, scale]) => ({ law: 'gamma', shape, scale }),
  logDensity([shape, scale]) {
    const constant = -ln(scale) - gammaln(shape);
    return (exposure) => {
      const x = exposure / scale;
      return constant + (shape - 1) * ln(x) - x;
    };
  },
  mean: ([shape, scale]) => shape * scale,
  start(logMean, logSd) {
    // The variance of ln T is near 1/(shape - 1/2) and its mean near ln scale + ln(shape - 1/2), for shapes that are not small.
    const shape = 0.5 + 1 / (logSd * logSd);
    return [shape, exp(logMean) / (shape - 0.5)];
  },
};
