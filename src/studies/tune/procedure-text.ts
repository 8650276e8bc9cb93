import type { Choice } from './choose.js';
import { batchOf, type Goal } from './goals.js';
import type { FirstLook } from './look.js';
import type { Constraint, TuneProcedure } from './results.js';
import type { Space } from './space.js';

interface Procedure {
  readonly goal: Goal;
  readonly constraint: Constraint | null;
  readonly space: Space;
  readonly replications: TuneProcedure['replications'];
  readonly look: FirstLook;
  /** Null where somebody stopped the selection. */
  readonly choice: Choice | null;
  readonly maxCampaigns: number;
  readonly isStopped: boolean;
}

/** How the winner was found, step by step, with its sources. */
export function procedureText(procedure: Procedure): string {
  return [lookText(procedure), ...yieldText(procedure), selectionText(procedure), comparisonText(procedure)].join(' ');
}

function lookText({ space, replications, look }: Procedure): string {
  const { looked, chosen } = look;
  if (space.size === looked.length + space.refused.count)
    return `Each of the ${looked.length} settings was looked at on ${replications.look} replications.`;
  return (
    `Of ${space.size} settings ${looked.length} were looked at on ${replications.look} replications each, where a search led: ` +
    `places spread evenly (Halton 1960), then compass search from the best of them (Kolda, Lewis and Torczon 2003). ` +
    `The best ${chosen.length} of these went into the selection; what was never looked at has no part in its promise.`
  );
}

function yieldText({ constraint, choice }: Procedure): readonly string[] {
  if (constraint === null) return [];
  if (choice === null)
    return [
      'Which settings meet the least yield was to be found by the sequential check of Andradóttir and Kim (2010); what is said of it comes of the interval of each yield alone.',
    ];
  return [
    'Which settings meet the least yield was found by the sequential check of Andradóttir and Kim (2010), with half of the error; a yield within the zone of it lies within the indifference zone.',
  ];
}

function selectionText({ goal, replications, choice, maxCampaigns }: Procedure): string {
  const observed =
    goal.per === null
      ? ''
      : ` One observation is the jackknifed ratio of ${batchOf(goal)} replications, as images per time.`;
  if (choice === null)
    return `The best was to be selected with fresh random numbers by the fully sequential procedure of Kim and Nelson (2001), and compared with further random numbers, when it was interrupted.${observed}`;
  const end = choice.isDecided
    ? `it ended after ${replications.selection} replications of those that stayed longest.`
    : `it was ended at the limit of ${maxCampaigns} campaigns.`;
  return `The best was selected with fresh random numbers by the fully sequential procedure of Kim and Nelson (2001), which holds with common random numbers, for observations that are not far from normal; ${end}${observed}`;
}

function comparisonText({ replications, goal, isStopped }: Procedure): string {
  if (replications.comparison === 0)
    return 'Of several means the best owes some of that to chance: it would be worse with fresh random numbers.';
  const ratio = goal.per === null ? '' : ' Intervals of ratios are by linearisation.';
  const end = isStopped
    ? 'as many as were complete when it was interrupted'
    : 'until what shows no clear difference from the winner was known to within the zone or 20 000 campaigns would have been passed';
  return `All were then run on ${replications.comparison} further replications, which no choice has seen, ${end}.${ratio}`;
}
