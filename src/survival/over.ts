import type { Objective } from './maximise.js';

/** The function with some of its numbers free, the others as they stand in `fixed`. */
export function over(objective: Objective, freed: readonly number[], fixed: readonly number[]): Objective {
  return (some) => {
    const all = [...fixed];
    freed.forEach((i, j) => (all[i] = some[j]));
    return objective(all);
  };
}
