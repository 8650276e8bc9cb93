import { continuation } from './kim-nelson.js';
import type { Observing, Procedure, Sequential } from './observing.js';

export interface FeasibilityTask extends Sequential {
  readonly systems: readonly number[];
  /** The mean that is wanted at least; whatever lies within the zone of it lies within the indifference zone. */
  readonly least: number;
}

/** What was found of one system, and after how many observations. */
export interface Feasibility {
  readonly system: number;
  readonly found: 'meets' | 'fails' | 'unclear';
  readonly after: number;
}

/**
 * Which systems have a mean of at least `least`: the sequential feasibility check of S. Andradóttir and S.-H. Kim (Naval Res.
 * Logist. 57(5), 403–421, 2010), c = 1, with the error shared equally, as common random numbers need it. With chance 1 − α at
 * least, every system that is more than the zone above is found to meet it and every one more than the zone below to fail.
 */
export function* checkFeasibility(
  task: FeasibilityTask,
  { observe, mayGoOn }: Observing,
): Procedure<readonly Feasibility[]> {
  const { systems, error, firstStage, zone, least } = task;
  const { h2 } = continuation(error / systems.length, firstStage);
  yield { systems, observations: firstStage };
  const states = systems.map((system) => {
    const values = Array.from({ length: firstStage }, (_, index) => observe(system, index) - least);
    return { system, total: values.reduce((sum, value) => sum + value, 0), reach: (h2 * varianceOf(values)) / zone };
  });
  const found = new Map<number, Feasibility>();
  let left = states;
  for (let observations = firstStage; ; observations += 1) {
    for (const { system, total, reach } of left) {
      const far = Math.max(0, (reach - zone * observations) / 2);
      if (total >= far) found.set(system, { system, found: 'meets', after: observations });
      else if (total <= -far) found.set(system, { system, found: 'fails', after: observations });
    }
    left = left.filter(({ system }) => !found.has(system));
    if (left.length === 0 || !mayGoOn(left.length)) {
      const undecided = (system: number): Feasibility => ({ system, found: 'unclear', after: observations });
      return systems.map((system) => found.get(system) ?? undecided(system));
    }
    yield { systems: left.map(({ system }) => system), observations: observations + 1 };
    for (const state of left) state.total += observe(state.system, observations) - least;
  }
}

function varianceOf(values: readonly number[]): number {
  const centre = values.reduce((sum, value) => sum + value, 0) / values.length;
  return values.reduce((sum, value) => sum + (value - centre) * (value - centre), 0) / (values.length - 1);
}
