import { DISTURBANCE_KINDS } from '../../probe/drift.js';
import { type Change, waitChanges } from '../change.js';
import { bestOf } from '../best.js';
import type { Scenarios } from '../task.js';
import { WAIT_ANSWERS } from './answers.js';
import { settingsAt } from './settings.js';
import { type Answered, ASKED_OF, type StrategyAsked, WORKING } from './verdict.js';
import { atWait, type AtWait, WAITS } from './waiting.js';

/** How much slower drift dies out in the question. */
const FACTOR = 3;

/** Whether drift that dies out more slowly is best waited for longer. */
export async function* waitQuestion(asked: StrategyAsked, scenarios: Scenarios): AsyncGenerator<Answered> {
  const { strategy } = asked;
  const { workflow, drift } = scenarios.strategy(asked, strategy).model;
  const [fewer, alike, more] = WAIT_ANSWERS;
  if (drift === null) {
    yield { right: alike, why: 'Nothing drifts in this scenario, so that no wait is worth its time.' };
    return;
  }
  const campaigns = scenarios.campaigns(asked);
  const slower = DISTURBANCE_KINDS.filter((kind) => drift.first[kind] !== null).map((kind): Change => ({
    strategy,
    path: `workflows.${workflow}.drift.${kind}.decay`,
    value: `${FACTOR * drift.course.decay[kind]} s`,
  }));
  const best: number[] = [];
  for (const changes of [[], slower]) {
    const points: Omit<AtWait, 'isWorse'>[] = [];
    const { ready } = settingsAt({ ...asked, changes }, scenarios, WAITS, (wait) =>
      waitChanges(strategy, workflow, wait),
    );
    for (const { at, runnable } of ready) {
      const tried = atWait(at, campaigns.upTo(runnable, ASKED_OF));
      if (tried !== null) points.push(tried.point);
      yield await Promise.resolve(WORKING);
    }
    best.push(bestOf(points).at);
  }
  const [usual, slow] = best;
  const right = slow < usual ? fewer : slow > usual ? more : alike;
  const balance = right === more ? BALANCE.more : BALANCE.notMore;
  yield {
    right,
    why: `Of the waits tried, ${usual} min is best with the drift of the scenario, and ${slow} min with drift that dies out ${FACTOR} times as slowly. ${balance}`,
  };
}

const BALANCE = {
  more: 'What is not waited for is paid with scans that drift spoils, each as long as a good one.',
  notMore: 'Where a wait costs more than the scans that it saves, it is better to scan, and to scan again.',
} as const;
