import { stoppedBefore, stoppedWithin } from '../../analysis/interrupted.js';
import type { Work } from '../../execution/work.js';
import type { Choice } from './choose.js';
import { type Comparing, runComparison } from './compared.js';
import { LOOK } from './look.js';
import { type Compared, comparedIn, entriesOf, type Selected } from './entries.js';
import { type TrialGround, Trials } from './trials.js';

/**
 * Runs the settings of a selection again, and the present one with them.
 * @param first the first replication that no choice has seen
 * @throws Stopped where it was interrupted with hardly any replication of each
 */
export function* compareAfresh(
  selected: Selected & { readonly choice: Choice },
  first: number,
  ground: TrialGround,
): Work<Compared> {
  const { goal, constraint, choice, zone } = selected;
  const entries = entriesOf(selected, (strategy) => new Trials(strategy, first, ground));
  const winner = choice.selection?.selected ?? null;
  const comparing: Comparing = { goal, constraint, winner, comparisons: Math.max(1, entries.length - 1) };
  ground.counter.begin('comparison');
  const isStopped = yield* runComparison(entries, comparing, zone, ground.counter);
  const replications = entries[0].trials.looked;
  const stopped = isStopped ? stoppedWithin(replications, 'the selection had ended') : null;
  return { ...comparedIn(entries, comparing, selected), replications, stopped };
}

/**
 * What is said of the settings where it was interrupted before the best was selected and compared: what all of them came to
 * on the same replications, those of the selection that all have, or where there are none yet, those of the first look.
 * Nothing is told apart, as the choice may have seen them.
 * @param present trials of the present setting in the first look
 */
export function soFar(selected: Selected, present: Trials): Compared {
  const { look, trials, goal, constraint } = selected;
  const common = Math.min(...trials.map(({ looked }) => looked));
  const of = common >= LOOK ? trials.map((each) => each.keepFirst(common)) : look.chosen.map((each) => each.trials);
  const entries = entriesOf(selected, (_, system) => (system === null ? present : of[system]));
  const comparing: Comparing = { goal, constraint, winner: null, comparisons: 1 };
  const stopped = stoppedBefore(
    `the best was selected and compared; what is said is of ${of[0].looked} replications of each setting`,
  );
  return { ...comparedIn(entries, comparing, selected), replications: 0, stopped };
}
