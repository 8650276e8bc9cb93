import { pairedInterval } from '../../statistics/interval.js';
import { LEVEL, timeMeasureOf } from '../../study/differences.js';
import { durationText } from '../../report/format.js';
import { paceChanges } from '../change.js';
import type { Scenarios } from '../task.js';
import { HANDS_ANSWERS } from './answers.js';
import { type Answered, ASKED_OF, CHUNK, type StrategyAsked, WORKING } from './verdict.js';

const TWICE = 2;

/** What hands twice as fast do to an afternoon at the usual pace of scanning, on the same luck. */
export async function* handsQuestion(asked: StrategyAsked, scenarios: Scenarios): AsyncGenerator<Answered> {
  const { strategy } = asked;
  const afternoons = scenarios.afternoons(asked);
  const [usual, hurried] = [1, TWICE].map((hands) =>
    scenarios.strategy({ ...asked, changes: paceChanges(strategy, 1, hands) }, strategy),
  );
  for (let done = CHUNK; done < ASKED_OF; done += CHUNK) {
    afternoons.upTo(usual, done);
    afternoons.upTo(hurried, done);
    yield await Promise.resolve(WORKING);
  }
  const times = [hurried, usual].map((each) =>
    afternoons.upTo(each, ASKED_OF).values[timeMeasureOf([each])].slice(0, ASKED_OF),
  );
  const { mean, low, high } = pairedInterval(times[0], times[1], LEVEL);
  const [shorter, longer, alike] = HANDS_ANSWERS;
  const right = high < 0 ? shorter : low > 0 ? longer : alike;
  const size = durationText(Math.abs(mean));
  const why =
    right === alike
      ? `Over ${ASKED_OF} afternoons the difference is ${size}, less than luck makes: what hands save, broken tips take back.`
      : `Over ${ASKED_OF} afternoons it is ${size} ${mean < 0 ? 'shorter' : 'longer'} on average. Each hurried exchange takes less time, but more of them break the tip and must be made again.`;
  yield { right, why };
}
