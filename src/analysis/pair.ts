import type { Strategy } from '../scenario/load.js';
import { type Runnable, runnable } from '../execution/replicate.js';

/**
 * Two strategies ready to be run, in the order named.
 * @throws RangeError where a name is no strategy's
 */
export function pairIn(
  { strategies }: { readonly strategies: readonly Strategy[] },
  between: readonly [string, string],
): readonly [Runnable, Runnable] {
  const pair = between.flatMap((name) => strategies.filter((strategy) => strategy.name === name));
  if (pair.length !== 2) throw new RangeError('two strategies are compared');
  const [first, second] = runnable(pair);
  return [first, second];
}
