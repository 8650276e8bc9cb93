import { exp, gammaln, ln, pow } from '../../chance/elementary.js';
import type { LawToFit } from './law.js';

/** Euler-Mascheroni constant: the mean of ln T is ln scale - EULER / shape. */
const EULER = 0.5772156649015329;

/** Standard deviation of ln T at shape 1: π / √6. */
const LOG_SD = 1.282549830161864;

/** f(x) = (shape / scale) (x / scale)^(shape - 1) exp(-(x / scale)^shape). */
export const weibull: LawToFit = {
  law: 'weibull',
  parameters: [
    { name: 'shape', free: 'log', isExposure: false },
    { name: 'scale', free: 'log', isExposure: true },
  ],
  life: ([shape, scale]) => ({ law: 'weibull', shape, scale }),
  logDensity([shape, scale]) {
    const logRate = ln(shape) - ln(scale);
    return (exposure) => {
      const x = exposure / scale;
      return logRate + (shape - 1) * ln(x) - pow(x, shape);
    };
  },
  mean: ([shape, scale]) => scale * exp(gammaln(1 + 1 / shape)),
  start(logMean, logSd) {
    const shape = LOG_SD / logSd;
    return [shape, exp(logMean + EULER / shape)];
  },
};
