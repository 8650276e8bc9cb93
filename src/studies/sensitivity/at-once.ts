import { campaignsOnDraws, drawsOf, nestedIn, REPLICATIONS, uncertainIn } from '../../analysis/worth/drawn.js';
import { subjectsOf } from '../../analysis/worth/knowing.js';
import { shareOf } from '../../analysis/estimate.js';
import type { Meter } from '../../execution/progress.js';
import type { Work } from '../../execution/work.js';
import { sobolIndices } from '../../statistics/information/sobol.js';
import { expectedOfGroups } from '../../statistics/nested-variance.js';
import { less } from '../../statistics/numbers.js';
import type { AtOnce, Swing } from './results.js';
import type { Here } from './standing.js';

const DRAWS = 2000;

/** What all values at once do, and what it took. */
export interface FoundAtOnce {
  /** Null where nothing can be drawn. */
  readonly atOnce: AtOnce | null;
  readonly campaigns: number;
}

/**
 * All values drawn at once, again and again, and what share each of them has in the variance of the difference of the two. A value
 * of which an end is no scenario is left as it stands, and so is what cannot be drawn.
 */
export function* allAtOnce(
  { loaded, between, measure, difference }: Here,
  swings: readonly Swing[],
  isAll: boolean,
  seed: string,
  meter: Meter,
): Work<FoundAtOnce> {
  const refused = swings.filter(({ low, high }) => low.notTried !== null || high.notTried !== null);
  const inputs = uncertainIn(loaded, isAll).filter(({ path }) => refused.every((swing) => swing.path !== path));
  if (inputs.length === 0) return { atOnce: null, campaigns: 0 };
  const size = { draws: DRAWS, replications: REPLICATIONS };
  const toDraw = { loaded, names: between, inputs, seed, size, kept: [measure] };
  const [first, second] = yield* campaignsOnDraws(toDraw, (tasks) => meter.over(tasks));
  const { nested, noise } = nestedIn(less(second.of(measure), first.of(measure)), size);
  const draws = drawsOf(inputs, seed, size);
  const subjects = subjectsOf(draws).filter(({ about }) => !about.isGroup);
  const columns = draws.values.flat();
  const groups = subjects.map(({ places }) => places);
  const { indices, explained } = sobolIndices(nested.groupMeans, columns, groups, noise);
  const drawn = new Set(inputs.flatMap(({ parameters }) => parameters.map(({ path }) => path)));
  const atOnce = {
    draws: size.draws,
    replicationsPerDraw: size.replications,
    weights: subjects
      .map(({ about: { path, description, within } }, place) => ({ path, description, within, ...indices[place] }))
      .toSorted((a, b) => b.total - a.total || b.first - a.first),
    explained,
    otherSign: shareOf(expectedOfGroups(nested).map((each) => (each * difference.value < 0 ? 1 : 0))),
    notDrawn: swings.flatMap(({ path, description }) => (drawn.has(path) ? [] : [{ path, description }])),
  };
  return { atOnce, campaigns: between.length * size.draws * size.replications };
}
