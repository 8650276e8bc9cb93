import betaQuantile from '@stdlib/stats-base-dists-beta-quantile';
import { normalQuantile } from '../chance/normal.js';

/**
 * Exact interval of a proportion (C. J. Clopper and E. S. Pearson, Biometrika 26, 404, 1934).
 * @param successes of trials, whole numbers
 * @param level confidence level in (0, 1)
 * @throws RangeError unless 0 <= successes <= trials and trials >= 1
 */
export function clopperPearson(successes: number, trials: number, level: number): { low: number; high: number } {
  if (!(trials >= 1 && successes >= 0 && successes <= trials)) {
    throw new RangeError(`not a proportion: ${successes} of ${trials}`);
  }
  const tail = (1 - level) / 2;
  const failures = trials - successes;
  return {
    low: successes === 0 ? 0 : betaQuantile(tail, successes, failures + 1),
    high: failures === 0 ? 1 : betaQuantile(1 - tail, successes + 1, failures),
  };
}

/**
 * Interval of the difference of two proportions seen in the same trials (D. G. Bonett and R. M. Price, Journal of Educational and
 * Behavioral Statistics 37, 479, 2012): it has a width also where no trial, or every trial, told the two apart.
 * @param up trials that only the second succeeded in, `down` those that only the first did
 * @param trials all of them
 * @param level confidence level in (0, 1)
 */
export function pairedProportions(
  up: number,
  down: number,
  trials: number,
  level: number,
): { low: number; high: number } {
  const [gained, lost] = [(up + 1) / (trials + 2), (down + 1) / (trials + 2)];
  const difference = gained - lost;
  const error = Math.sqrt((gained + lost - difference * difference) / (trials + 2));
  const halfWidth = normalQuantile((1 + level) / 2) * error;
  return { low: Math.max(-1, difference - halfWidth), high: Math.min(1, difference + halfWidth) };
}
