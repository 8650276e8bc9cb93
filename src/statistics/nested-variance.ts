/** How the variance of values splits that come in groups of one size, the groups drawn at random. */
export interface NestedVariance {
  readonly mean: number;
  readonly groupMeans: readonly number[];
  /** Variance of a group's expected value. */
  readonly between: number;
  /** Mean variance inside a group. */
  readonly within: number;
}

/**
 * The analysis-of-variance estimators of a one-way classification with random groups: unbiased whatever the distributions,
 * but for a negative estimate, which is put to 0 (Y. Sun, D. W. Apley and J. Staum, Operations Research 59, 998, 2011, for
 * simulations within simulations; S. R. Searle, G. Casella and C. E. McCulloch, Variance Components, Wiley, 1992, from
 * memory).
 * @param groups at least two, each of the same number of values, at least two, independent of those of other groups
 */
export function nestedVariance(groups: readonly (readonly number[])[]): NestedVariance {
  const [count, size] = [groups.length, groups[0].length];
  if (count < 2 || size < 2) throw new RangeError(`two groups of two values are needed, not ${count} of ${size}`);
  const groupMeans = groups.map((group) => average(group));
  const mean = average(groupMeans);
  const ofMeans = squares(groupMeans, mean) / (count - 1);
  const within = groups.reduce((sum, group, k) => sum + squares(group, groupMeans[k]), 0) / (count * (size - 1));
  return { mean, groupMeans, between: Math.max(0, ofMeans - within / size), within };
}

/**
 * The groups' means drawn together about their mean until they vary as much as the groups' expected values are estimated
 * to, so that what the noise inside each group adds to their spread is gone (T. A. Louis, J. Am. Stat. Assoc. 79, 393,
 * 1984, from memory).
 */
export function expectedOfGroups({ mean, groupMeans, between }: NestedVariance): readonly number[] {
  const seen = squares(groupMeans, mean) / (groupMeans.length - 1);
  const share = seen > 0 ? Math.min(1, Math.sqrt(between / seen)) : 0;
  return groupMeans.map((group) => mean + share * (group - mean));
}

function squares(values: readonly number[], about: number): number {
  return values.reduce((sum, value) => sum + (value - about) * (value - about), 0);
}

function average(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
