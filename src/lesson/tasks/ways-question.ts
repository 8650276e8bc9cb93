import { fixed, numberText, SHARE } from '../../wording/numbers.js';
import { playedIn, type Way } from '../session/ways.js';
import type { Scenarios } from '../task.js';
import { WAYS_ANSWERS } from './answers.js';
import { type Answered, ASKED_OF, CHUNK, type StrategyAsked, WORKING } from './verdict.js';

const WAYS: readonly Way[] = ['go on', 'as ruled', 'replace'];

/** Which way of deciding on every doubtful tip gives the most good images in an hour, with common random numbers. */
export async function* waysQuestion(asked: StrategyAsked, scenarios: Scenarios): AsyncGenerator<Answered> {
  const { model } = scenarios.strategy(asked, asked.strategy);
  const table = scenarios.luck(asked);
  const totals = WAYS.map((way, place) => ({ way, answer: WAYS_ANSWERS[place], good: 0, seconds: 0 }));
  for (let replication = 1; replication <= ASKED_OF; replication += 1) {
    for (const total of totals) {
      const { good, instrumentTime } = playedIn(total.way, model, table.replication(replication));
      total.good += good;
      total.seconds += instrumentTime;
    }
    if (replication % CHUNK === 0) yield await Promise.resolve(WORKING);
  }
  const results = totals.map(({ answer, good, seconds }) => ({
    answer,
    rate: good / (seconds / 3600),
    share: good / ASKED_OF / model.images.length,
  }));
  const best = results.reduce((most, each) => (each.rate > most.rate ? each : most));
  const each = results.map(
    ({ answer, rate, share }) =>
      `${answer}: ${fixed(rate, 2)} per hour, and ${numberText(share, SHARE)} of the plan good`,
  );
  yield { right: best.answer, why: `${each.join('. ')}.` };
}
