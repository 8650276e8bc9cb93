import type { LoadedScenario } from '../../scenario/load.js';
import { type SobolIndices, sobolIndices } from '../../statistics/information/sobol.js';
import { average, less, type Numbers, placeOfLeast } from '../../statistics/numbers.js';
import { type Draws, nestedIn } from './drawn.js';
import { type DrawnSubject, knowing, subjectsOf } from './knowing.js';
import type { Worth, WorthFound } from './results.js';

/** What one strategy came to, replication after replication: seconds of instrument time, and money. */
export interface Losses {
  readonly time: Numbers;
  readonly cost: Numbers;
}

/**
 * What it is worth to know more, value by value, before one chooses between strategies.
 * @param names of the strategies
 * @param losses strategy by strategy, on these draws
 * @param seed that of the draws
 */
export function worthIn(
  loaded: LoadedScenario,
  names: readonly string[],
  draws: Draws,
  losses: readonly Losses[],
  seed: string,
): WorthFound {
  const hours = losses.map(({ time }) => Float64Array.from(time, (seconds) => seconds / 3600));
  const cost = losses.map((each) => each.cost);
  const subjects = subjectsOf(draws);
  const found = knowing<Worth>({
    ...{ loaded, draws, subjects, seed, losses: [hours, cost] },
    told: ([byHours, byCost], wrong) => ({ hours: byHours, cost: byCost, wrong }),
  });
  const means = [hours, cost].map((choices) => choices.map(average));
  const [byHours, byCost] = means.map((each) => names[placeOfLeast(each)]);
  const indices = subjects.length === 0 ? new Map<string, SobolIndices>() : indicesIn(draws, subjects, hours);
  return {
    draws: draws.size.draws,
    replicationsPerDraw: draws.size.replications,
    strategies: names.map((name, i) => ({ name, hours: means[0][i], cost: means[1][i] })),
    chosen: { byHours, byCost },
    ...found,
    values: found.values.map((value) => ({ ...value, indices: indices.get(value.path) ?? NONE })),
  };
}

const NONE: SobolIndices = { first: 0, total: 0 };

/** Sobol' indices by path, for the difference in time of the first choice from the best other. */
function indicesIn(
  draws: Draws,
  subjects: readonly DrawnSubject[],
  hours: readonly Numbers[],
): ReadonlyMap<string, SobolIndices> {
  const [, ...others] = hours.map((_, i) => i);
  const best = others.toSorted((a, b) => average(hours[a]) - average(hours[b])).at(0);
  const { nested, noise } = nestedIn(best === undefined ? hours[0] : less(hours[0], hours[best]), draws.size);
  const groups = subjects.map(({ places }) => places);
  const { indices } = sobolIndices(nested.groupMeans, draws.values.flat(), groups, noise);
  return new Map(subjects.map(({ about }, place) => [about.path, indices[place]]));
}
