import { exp, expm1, gammainc, gammaincinv, gammaln, ln, log1p } from '../elementary.js';
import { fittable, type LifeDistribution } from './distribution.js';
import { solveIncreasing } from './solve.js';
import { SHAPE } from './weibull.js';

const LN_TWO = 0.6931471805599453;

/** From this hazard on the library's inverse loses digits, and later its tail underflows; the continued fraction does neither. */
const FAR_HAZARD = 30;

/** Below this hazard, whatever the rounding, it is not that far. */
const SURELY_NEAR = 29;

/** Most terms of the continued fraction; a dozen do beyond FAR_HAZARD. */
const MOST_TERMS = 1000;

/**
 * Γ(a, x) e^x x^-a by Legendre's continued fraction (Abramowitz and Stegun 6.5.31) in the even form of DLMF 8.9.2, evaluated by Lentz's
 * method. For x well above a, where it converges fast and every denominator is positive.
 */
function scaledUpperGamma(a: number, x: number): number {
  let b = x + 1 - a;
  let c = Infinity;
  let d = 1 / b;
  let value = d;
  for (let i = 1; i <= MOST_TERMS; i += 1) {
    const term = -i * (i - a);
    b += 2;
    d = 1 / (term * d + b);
    c = b + term / c;
    const factor = c * d;
    value *= factor;
    if (Math.abs(factor - 1) <= 2.3e-16) break;
  }
  return value;
}

/** -ln Q(shape, x), each side from its small tail so that nothing cancels. */
function nearHazard(shape: number, x: number): number {
  const below = gammainc(x, shape, true, false);
  return below < 0.5 ? -log1p(-below) : -ln(gammainc(x, shape, true, true));
}

/** The distribution far out, where the library's functions do not reach. */
interface Tail {
  /** Where it begins, at FAR_HAZARD. */
  readonly from: number;
  readonly hazard: (x: number) => number;
  /** Where the hazard has this value. */
  readonly deviate: (hazard: number) => number;
}

function tailOf(shape: number): Tail {
  const from = gammaincinv(exp(-FAR_HAZARD), shape, true);
  const logTail = (x: number) => shape * ln(x) - x + ln(scaledUpperGamma(shape, x));
  // ln Γ(shape), from where both ways of reckoning hold, so that H has no step there.
  const logComplete = nearHazard(shape, from) + logTail(from);
  const hazardAt = (x: number) => logComplete - logTail(x);
  const rate = (x: number) => 1 / (x * scaledUpperGamma(shape, x));
  // The hazard rate nears 1 from one side, so that the lesser of its value here and 1 bounds it from below.
  const leastRate = Math.min(1, rate(from));
  return {
    from,
    hazard: hazardAt,
    deviate: (hazard) => solveIncreasing(hazardAt, rate, hazard, from, from + (hazard - FAR_HAZARD + 1) / leastRate),
  };
}

/** H(x) = -ln(1 - P(shape, x / scale)), P the regularised lower incomplete gamma function. */
function compile(shape: number, scale: number): LifeDistribution {
  let known: Tail | null = null;
  // Fits ask for thousands of distributions, few of them so far out, and it costs far more than all else.
  const tail = (): Tail => (known ??= tailOf(shape));

  function deviate(hazard: number): number {
    if (hazard < LN_TWO) return gammaincinv(-expm1(-hazard), shape, false);
    return hazard < FAR_HAZARD ? gammaincinv(exp(-hazard), shape, true) : tail().deviate(hazard);
  }

  return {
    cumulativeHazard(exposure) {
      const x = exposure / scale;
      const near = nearHazard(shape, x);
      return near < SURELY_NEAR || x < tail().from ? near : tail().hazard(x);
    },
    exposureAt: (hazard) => scale * deviate(hazard),
  };
}

/** mean = shape · scale, f(x) = (x / scale)^(shape - 1) exp(-x / scale) / (scale Γ(shape)). */
export const gamma = fittable({
  title: 'gamma',
  parameters: { shape: SHAPE, scale: { is: 'exposure', description: 'Scale; mean over shape' } },
  compile: ({ shape, scale }) => compile(shape, scale),
  fit: {
    logDensity({ shape, scale }) {
      const constant = -ln(scale) - gammaln(shape);
      return (exposure) => {
        const x = exposure / scale;
        return constant + (shape - 1) * ln(x) - x;
      };
    },
    mean: ({ shape, scale }) => shape * scale,
    start(logMean, logSd) {
      // The variance of ln T is near 1/(shape - 1/2) and its mean near ln scale + ln(shape - 1/2), for shapes that are not small.
      const shape = 0.5 + 1 / (logSd * logSd);
      return { shape, scale: exp(logMean) / (shape - 0.5) };
    },
  },
});
