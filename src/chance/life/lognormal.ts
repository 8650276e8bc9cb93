import { erfcinv, exp, expm1, ln, log1p, normalCdf } from '../elementary.js';
import { fittable } from './distribution.js';
import { solveIncreasing } from './solve.js';

const SQRT_TWO = 1.4142135623730951;
const LN_TWO = 0.6931471805599453;
const LN_SQRT_TWO_PI = 0.9189385332046728;

/** Beyond it the upper tail nears the smallest numbers of the format, and its logarithm is taken from the asymptotic series. */
const FAR = 30;
const FAR_HAZARD = 454.321243956008;

/**
 * 1 - 1/z² + 3/z⁴ - …, the factor of the normal upper tail over φ(z)/z (Abramowitz and Stegun 26.2.12); at z >= 30 six terms leave less
 * than 1e-14 of relative error.
 */
function tailSeries(z: number): number {
  const y = 1 / (z * z);
  return 1 - y * (1 - 3 * y * (1 - 5 * y * (1 - 7 * y * (1 - 9 * y))));
}

/** -ln of the normal upper tail Q(z), each side from its small tail so that nothing cancels. */
function normalHazard(z: number): number {
  if (z < 0) return -log1p(-normalCdf(z, 0, 1));
  if (z < FAR) return -ln(normalCdf(-z, 0, 1));
  return (z * z) / 2 + LN_SQRT_TWO_PI + ln(z) - ln(tailSeries(z));
}

/** z with normalHazard(z) = hazard. */
function normalDeviate(hazard: number): number {
  if (hazard < LN_TWO) return -SQRT_TWO * erfcinv(-2 * expm1(-hazard));
  if (hazard < FAR_HAZARD) return SQRT_TWO * erfcinv(2 * exp(-hazard));
  const millsRate = (z: number) => z / tailSeries(z);
  return solveIncreasing(normalHazard, millsRate, hazard, FAR, Math.sqrt(2 * hazard));
}

/** H(x) = -ln Q(z), Q the normal upper tail; f(x) = φ(z) / (x ln geometricSd); z = ln(x / median) / ln geometricSd. */
export const lognormal = fittable({
  title: 'lognormal',
  parameters: {
    median: { is: 'exposure', description: 'Median lifetime' },
    geometricSd: { is: 'geometric SD', description: 'Geometric standard deviation of the lifetime' },
  },
  compile({ median, geometricSd }) {
    const sigma = ln(geometricSd);
    return {
      cumulativeHazard: (exposure) => (exposure === 0 ? 0 : normalHazard(ln(exposure / median) / sigma)),
      exposureAt: (hazard) => (hazard === 0 ? 0 : median * exp(sigma * normalDeviate(hazard))),
    };
  },
  fit: {
    logDensity({ median, geometricSd }) {
      const logMedian = ln(median);
      const sigma = ln(geometricSd);
      const constant = -LN_SQRT_TWO_PI - ln(sigma);
      return (exposure) => {
        const logExposure = ln(exposure);
        const z = (logExposure - logMedian) / sigma;
        return constant - logExposure - (z * z) / 2;
      };
    },
    mean({ median, geometricSd }) {
      const sigma = ln(geometricSd);
      return median * exp((sigma * sigma) / 2);
    },
    start: (logMean, logSd) => ({ median: exp(logMean), geometricSd: exp(logSd) }),
  },
});
