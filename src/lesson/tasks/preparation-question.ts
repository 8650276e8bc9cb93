import { durationText } from '../../wording/numbers.js';
import { pairedInterval } from '../../statistics/interval.js';
import { LEVEL } from '../../analysis/differences.js';
import { INSTRUMENT_TIME, OPERATOR_TIME } from '../../analysis/words.js';
import type { Scenarios } from '../task.js';
import { PREPARATION_ANSWERS } from './answers.js';
import { type Answered, ASKED_OF, CHUNK, type StrategyAsked, WORKING } from './verdict.js';

/** A fifth of the time is what a well-practised hand may come to. */
const PRACTISED = 0.2;

/**
 * Which workflow takes less once preparing the specimen is practised: operator time where it is prepared at the bench, else
 * the instrument's. `strategy` is the one that hops, compared with the first that swaps.
 */
export async function* preparationQuestion(asked: StrategyAsked, scenarios: Scenarios): AsyncGenerator<Answered> {
  const { loaded } = scenarios.with(asked);
  const swap = loaded.strategies.find(({ workflow }) => workflow === 'swap')?.name ?? asked.strategy;
  const changes = [{ strategy: asked.strategy, scale: 'preparation', factor: PRACTISED } as const];
  const ways = [swap, asked.strategy].map((name) => scenarios.strategy({ ...asked, changes }, name));
  const campaigns = scenarios.campaigns(asked);
  for (let done = CHUNK; done < ASKED_OF; done += CHUNK) {
    for (const way of ways) campaigns.upTo(way, done);
    yield await Promise.resolve(WORKING);
  }
  const isAtBench = ways[1].model.settings.workflows.hop.prepareAt === 'bench';
  const measure = isAtBench ? 'operatorTime' : 'instrumentTime';
  const [swapped, hopped] = ways.map((way) => campaigns.upTo(way, ASKED_OF).values[measure].slice(0, ASKED_OF));
  const { mean, low, high } = pairedInterval(hopped, swapped, LEVEL);
  const [swapping, hopping, alike] = PREPARATION_ANSWERS;
  const right = high < 0 ? hopping : low > 0 ? swapping : alike;
  const size = durationText(Math.abs(mean));
  const time = isAtBench ? OPERATOR_TIME : INSTRUMENT_TIME;
  const why = `Over ${ASKED_OF} campaigns array-hop then takes ${size} ${mean < 0 ? 'less' : 'more'} ${time} on average: preparation is paid once, a change of tip each time.`;
  yield { right, why };
}
