import betaQuantile from '@stdlib/stats-base-dists-beta-quantile';

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
