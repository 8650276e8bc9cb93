import { exp, expm1, ln, log1p, pow } from '../elementary.js';
import { distribution } from './distribution.js';

const LN_TWO = 0.6931471805599453;

/**
 * H(x) = ln(1 + (x / median)^shape) (S. Bennett, Appl. Stat. 32, 165, 1983): above shape 1 the hazard rises, then falls, as where tips that
 * came through their first images last. Logs are not fitted with it: some tens of events hardly tell it from the lognormal.
 */
export const logLogistic = distribution({
  title: 'log-logistic',
  parameters: {
    median: { is: 'exposure', description: 'Median lifetime' },
    shape: {
      is: 'shape',
      description: 'Shape of the lifetime distribution; up to 1 a falling hazard, above 1 one that rises, then falls',
    },
  },
  // Far from the median on either side nothing cancels and nothing overflows.
  compile: ({ median, shape }) => ({
    cumulativeHazard(exposure) {
      if (exposure <= median) return log1p(pow(exposure / median, shape));
      return shape * ln(exposure / median) + log1p(pow(median / exposure, shape));
    },
    exposureAt: (hazard) =>
      hazard < LN_TWO ? median * pow(expm1(hazard), 1 / shape) : median * exp((hazard + log1p(-exp(-hazard))) / shape),
  }),
});
