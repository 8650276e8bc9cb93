import type { Work } from '../work/work.js';
import type { Choice } from './choose.js';
import { comparedSettings, type Comparing, type Entry, runComparison } from './compared.js';
import type { Goal } from './goals.js';
import type { FirstLook, Looked } from './look.js';
import type { Constraint, TunedSetting } from './results.js';
import type { Space } from './space.js';
import { type TrialGround, Trials } from './trials.js';

/** What a selection leaves to be compared. */
interface Selected {
  readonly space: Space;
  readonly look: FirstLook;
  readonly choice: Choice;
  /** Those of the selection, in the order of what was chosen. */
  readonly trials: readonly Trials[];
  readonly goal: Goal;
  readonly constraint: Constraint | null;
  /** The zone in the unit of the goal. */
  readonly zone: number;
}

/** What luck that no choice has seen says of the settings. */
interface Compared {
  /** Those of the selection, in its order. */
  readonly settings: readonly TunedSetting[];
  readonly present: TunedSetting;
  /** Intervals of differences are widened for so many. */
  readonly comparisons: number;
  /** Of every setting. */
  readonly replications: number;
}

/**
 * Runs the settings of a selection again, and the present one with them.
 * @param first the first replication that no choice has seen
 */
export function* compareAfresh(selected: Selected, first: number, ground: TrialGround): Work<Compared> {
  const { space, choice, goal, constraint, zone } = selected;
  const entries = entriesOf(selected, (strategy) => new Trials(strategy, first, ground));
  const presentPlace = entries.findIndex(({ isPresent }) => isPresent);
  const all: readonly Entry[] =
    presentPlace < 0 ? [...entries, presentEntry(space, new Trials(space.present, first, ground))] : entries;
  const winner = choice.selection?.selected ?? null;
  const comparing: Comparing = { goal, constraint, winner, comparisons: Math.max(1, all.length - 1) };
  ground.counter.begin('comparison');
  yield* runComparison(all, comparing, zone, ground.counter);
  const compared = comparedSettings(all, comparing);
  return {
    settings: compared.slice(0, entries.length),
    present: compared[presentPlace < 0 ? compared.length - 1 : presentPlace],
    comparisons: comparing.comparisons,
    replications: all[0].trials.looked,
  };
}

function entriesOf(
  { look, choice: { feasibility, selection }, trials }: Selected,
  freshTrials: (strategy: Looked['candidate']['strategy']) => Trials,
): readonly Entry[] {
  return look.chosen.map(({ candidate }, system) => {
    const isLeftAside =
      selection?.eliminated.some((each) => each.system === system) === true || feasibility?.[system].found === 'fails';
    return {
      settings: candidate.settings,
      isPresent: candidate.isPresent,
      meets: feasibility?.[system].found ?? null,
      eliminatedAfter: isLeftAside ? trials[system].looked : null,
      trials: freshTrials(candidate.strategy),
    };
  });
}

function presentEntry(space: Space, trials: Trials): Entry {
  return { settings: space.presentSettings, isPresent: true, meets: null, eliminatedAfter: null, trials };
}
