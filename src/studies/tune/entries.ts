import type { Choice } from './choose.js';
import { comparedSettings, type Comparing, type Entry } from './compared.js';
import type { Goal } from './goals.js';
import type { FirstLook, Looked } from './look.js';
import type { Constraint, TunedSetting } from './results.js';
import type { Space } from './space.js';
import type { Trials } from './trials.js';

/** What a selection leaves to be compared. */
export interface Selected {
  readonly space: Space;
  readonly look: FirstLook;
  /** Null where somebody stopped the selection. */
  readonly choice: Choice | null;
  /** Those of the selection, in the order of what was chosen. */
  readonly trials: readonly Trials[];
  readonly goal: Goal;
  readonly constraint: Constraint | null;
  /** The zone in the unit of the goal. */
  readonly zone: number;
}

/** What is said of the settings of a selection, and of the present one. */
export interface Compared {
  /** Those of the selection, in its order. */
  readonly settings: readonly TunedSetting[];
  readonly present: TunedSetting;
  /** Intervals of differences are widened for so many. */
  readonly comparisons: number;
  /** Of every setting, on luck that no choice has seen. */
  readonly replications: number;
  /** In words, how it was interrupted; null where nobody did. */
  readonly stopped: string | null;
}

/** The settings of a selection, and behind them the present one where it is none of them. */
export function entriesOf(
  { space, look, choice, trials }: Selected,
  trialsOf: (strategy: Looked['candidate']['strategy'], system: number | null) => Trials,
): readonly Entry[] {
  const entries = look.chosen.map(({ candidate }, system): Entry => {
    const isLeftAside =
      choice?.selection?.eliminated.some((each) => each.system === system) === true ||
      choice?.feasibility?.[system].found === 'fails';
    return {
      settings: candidate.settings,
      isPresent: candidate.isPresent,
      meets: choice?.feasibility?.[system].found ?? null,
      eliminatedAfter: isLeftAside ? trials[system].looked : null,
      trials: trialsOf(candidate.strategy, system),
    };
  });
  if (entries.some(({ isPresent }) => isPresent)) return entries;
  const present = { settings: space.presentSettings, isPresent: true, meets: null, eliminatedAfter: null };
  return [...entries, { ...present, trials: trialsOf(space.present, null) }];
}

/** What is said of entries, those of the selection and the present one apart. */
export function comparedIn(
  entries: readonly Entry[],
  comparing: Comparing,
  { look }: Selected,
): Pick<Compared, 'settings' | 'present' | 'comparisons'> {
  const compared = comparedSettings(entries, comparing);
  const present = compared[entries.findIndex(({ isPresent }) => isPresent)];
  return { settings: compared.slice(0, look.chosen.length), present, comparisons: comparing.comparisons };
}
