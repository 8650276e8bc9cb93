import { pairedInterval } from '../../statistics/interval.js';
import { LEVEL } from '../../analysis/differences.js';
import { durationText } from '../../wording/numbers.js';
import { freeHasteText, hasteCosts } from '../../analysis/what-rushing-costs.js';
import { paceChanges } from '../change.js';
import type { Scenarios } from '../task.js';
import { HANDS_ANSWERS } from './answers.js';
import { type Answered, ASKED_OF, CHUNK, type StrategyAsked, WORKING } from './verdict.js';

const TWICE = 2;

/** What hands twice as fast do at the usual pace of scanning, with common random numbers. */
export async function* handsQuestion(asked: StrategyAsked, scenarios: Scenarios): AsyncGenerator<Answered> {
  const { strategy } = asked;
  const campaigns = scenarios.campaigns(asked);
  const [usual, hurried] = [1, TWICE].map((hands) =>
    scenarios.strategy({ ...asked, changes: paceChanges(strategy, 1, hands) }, strategy),
  );
  for (let done = CHUNK; done < ASKED_OF; done += CHUNK) {
    campaigns.upTo(usual, done);
    campaigns.upTo(hurried, done);
    yield await Promise.resolve(WORKING);
  }
  const times = [hurried, usual].map((each) => campaigns.upTo(each, ASKED_OF).values.instrumentTime.slice(0, ASKED_OF));
  const { mean, low, high } = pairedInterval(times[0], times[1], LEVEL);
  const [shorter, longer, alike] = HANDS_ANSWERS;
  const right = high < 0 ? shorter : low > 0 ? longer : alike;
  const { settings, workflow } = usual.model;
  const free = freeHasteText(hasteCosts(settings, workflow), 'hands', 'in this scenario');
  yield { right, why: `Over ${ASKED_OF} campaigns ${sizeText({ mean, low, high })} ${free || BALANCE[right]}` };
}

/** Why it comes out as it does, where hurried hands break something. */
const BALANCE: Readonly<Record<(typeof HANDS_ANSWERS)[number], string>> = {
  Shorter: 'More of the hurried exchanges go wrong, but that costs less time than quick hands save.',
  Longer: 'Each hurried exchange takes less time, but more of them go wrong and must be made again.',
  'No clear difference': 'What quick hands save is about what the exchanges that go wrong cost.',
};

function sizeText({ mean, low, high }: { readonly mean: number; readonly low: number; readonly high: number }): string {
  const [least, most] = [low, high].map((end) => durationText(Math.abs(end)));
  if (low < 0 && high > 0) return `there is no clear difference: from ${least} less to ${most} more.`;
  const span = mean < 0 ? `${most} to ${least}` : `${least} to ${most}`;
  return `it takes ${durationText(Math.abs(mean))} ${mean < 0 ? 'less' : 'more'} on average (95 % interval ${span}).`;
}
