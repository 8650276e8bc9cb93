import { stoppedBefore, stoppedWithin } from '../by-hand.js';
import type { Work } from '../work/work.js';
import type { Choice } from './choose.js';
import { type Comparing, runComparison } from './compared.js';
import { type Compared, comparedIn, entriesOf, type Selected } from './entries.js';
import { type TrialGround, Trials } from './trials.js';

/**
 * Runs the settings of a selection again, and the present one with them.
 * @param first the first replication that no choice has seen
 * @throws Stopped where it was stopped by hand with hardly any replication of each
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
 * What is said of the settings where somebody stopped it before they were compared afresh: what each came to in its part of
 * the selection, or in the first look where that is more. None of it is told apart, as the choice has seen it.
 * @param present trials of the present setting in the first look
 */
export function soFar(selected: Selected, present: Trials): Compared {
  const { look, trials, goal, constraint } = selected;
  const entries = entriesOf(selected, (_, system) => {
    if (system === null) return present;
    const [looked, selecting] = [look.chosen[system].trials, trials[system]];
    return selecting.looked > looked.looked ? selecting : looked;
  });
  const comparing: Comparing = { goal, constraint, winner: null, comparisons: 1 };
  const stopped = stoppedBefore('the best was selected and compared');
  return { ...comparedIn(entries, comparing, selected), replications: 0, stopped };
}
