import { campaignsOnDraws, drawsOf, REPLICATIONS, uncertainIn } from '../../analysis/worth/drawn.js';
import { knowing, subjectsOf } from '../../analysis/worth/knowing.js';
import type { Varied } from '../../analysis/vary/varied.js';
import type { Columns } from '../../execution/columns.js';
import type { Work } from '../../execution/work.js';
import type { LoadedScenario } from '../../scenario/load.js';
import { average, placeOfLeast } from '../../statistics/numbers.js';
import type { Goal } from './goals.js';
import type { SavedWorth, SettingsWorth } from './results.js';
import type { Candidate } from './space.js';
import { plannedIn, type TrialGround } from './trials.js';

export interface ToKnow {
  /** Settings to choose between. */
  readonly candidates: readonly Candidate[];
  readonly goal: Goal;
  readonly varied: readonly Varied[];
  readonly draws: number;
  readonly ground: TrialGround;
}

/** What it is worth to know more before one chooses between settings; null where there is one only. */
export function* worthOfSettings(
  given: LoadedScenario,
  { candidates, goal, varied, draws, ground: { seed, counter } }: ToKnow,
): Work<SettingsWorth | null> {
  if (candidates.length < 2) return null;
  const names = candidates.map((_, place) => `setting ${place + 1}`);
  const strategies = candidates.map(({ laid }, place) => ({ ...laid, name: names[place] }));
  const loaded = { ...given, strategies };
  // What the settings set themselves is chosen, however uncertain it is.
  const isVaried = (path: string) => varied.some((each) => each.path === path);
  const inputs = uncertainIn(loaded).filter(({ parameters }) => !parameters.every(({ path }) => isVaried(path)));
  const size = { draws, replications: REPLICATIONS };
  counter.begin('draws');
  const toDraw = {
    loaded,
    names,
    inputs,
    seed,
    size,
    kept: [columnOf(goal), 'yield'],
    wants: { cut: goal.isWithinGranted },
  };
  const columns = yield* campaignsOnDraws(toDraw, (tasks) => counter.over(tasks));
  counter.looked(names.length * draws * REPLICATIONS);
  const planned = candidates.map(({ strategy }) => plannedIn(strategy));
  const { losses, goals, chosen } = lossesOf(goal, columns, planned);
  const drawn = drawsOf(inputs, seed, size);
  const found = knowing<SavedWorth>({
    ...{ loaded, draws: drawn, subjects: subjectsOf(drawn), seed, losses: [losses] },
    told: ([saved], wrong) => ({ saved, wrong }),
  });
  return {
    ...{ draws, replicationsPerDraw: REPLICATIONS, chosen },
    settings: candidates.map(({ settings }, place) => ({ settings, goal: goals[place] })),
    ...found,
  };
}

/** The column that a goal is read from. */
function columnOf({ of }: Pick<Goal, 'of'>): string {
  return of === 'time' ? 'instrumentTime' : of;
}

/** What each setting loses in each replication, less of which is better, what its goal comes to over all, and which is best. */
export function lossesOf(
  goal: Pick<Goal, 'of' | 'per' | 'sense'>,
  columns: readonly Columns[],
  planned: readonly number[],
) {
  const values = columns.map((each) => each.of(columnOf(goal)));
  const sign = goal.sense === 'least' ? 1 : -1;
  if (goal.per === null) {
    const goals = values.map(average);
    const losses = values.map((each) => each.map((value) => sign * value));
    return { losses, goals, chosen: placeOfLeast(losses.map(average)) };
  }
  // A ratio of means is no mean: what counts is the time beyond that which the best ratio gives for as much quality (W. Dinkelbach,
  // Manage. Sci. 13, 492, 1967), for each unit of quality that the best setting has.
  const goods = columns.map((each, place) => each.of('yield').map((share) => share * planned[place]));
  const goals = values.map((each, place) => average(each) / average(goods[place]));
  const chosen = placeOfLeast(goals);
  const [best, unit] = [goals[chosen], average(goods[chosen])];
  const losses = values.map((each, place) => each.map((value, i) => (value - best * goods[place][i]) / unit));
  return { losses, goals, chosen };
}
