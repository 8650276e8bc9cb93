import { exp, gammaln, ln, pow } from '../elementary.js';
import { power } from '../scores.js';
import { fittable, type Parameter } from './distribution.js';

/** Euler-Mascheroni constant: the mean of ln T is ln scale - EULER / shape. */
const EULER = 0.5772156649015329;

/** Standard deviation of ln T at shape 1: π / √6. */
const LOG_SD = 1.282549830161864;

export const SHAPE: Parameter = {
  is: 'shape',
  description: 'Shape of the lifetime distribution; below 1 early failures, above 1 wear',
};

/** H(x) = (x / scale)^shape, f(x) = (shape / scale) (x / scale)^(shape - 1) exp(-(x / scale)^shape). */
export const weibull = fittable({
  title: 'Weibull',
  parameters: { shape: SHAPE, scale: { is: 'exposure', description: 'Exposure by which 63.2 % have failed' } },
  compile: ({ shape, scale }) => ({
    cumulativeHazard: (exposure) => pow(exposure / scale, shape),
    exposureAt: (hazard) => scale * power(ln(hazard) / shape),
  }),
  fit: {
    logDensity({ shape, scale }) {
      const logRate = ln(shape) - ln(scale);
      return (exposure) => {
        const x = exposure / scale;
        return logRate + (shape - 1) * ln(x) - pow(x, shape);
      };
    },
    mean: ({ shape, scale }) => scale * exp(gammaln(1 + 1 / shape)),
    start(logMean, logSd) {
      const shape = LOG_SD / logSd;
      return { shape, scale: exp(logMean + EULER / shape) };
    },
  },
});
