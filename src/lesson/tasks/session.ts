import type { Timeline } from '../../analysis/results.js';
import { type Account, accountOf } from '../session/account.js';
import type { Decision } from '../session/choices.js';
import { inSession } from '../session/ending.js';
import { type Session, playSession, ruledSession } from '../session/play.js';
import type { Scenarios } from '../task.js';
import type { StrategyAsked } from './verdict.js';

export interface SessionAsked extends StrategyAsked {
  /** Numbered from 1, as in `replications.csv`. */
  readonly replication: number;
  readonly decisions: readonly Decision[];
}

/** What is shown while it is played. */
export type Playing = Omit<Session, 'outcome' | 'timeline'>;

export interface SessionAnswer {
  readonly playing: Playing;
  /** The person's session and the one by the rules; null before the end. */
  readonly afterwards: {
    readonly accounts: readonly [yours: Account, ruled: Account];
    readonly timelines: readonly [yours: Timeline, ruled: Timeline];
  } | null;
}

/** One session as far as it is decided, and at its end what the rules would have done with common random numbers. */
export async function* session(asked: SessionAsked, scenarios: Scenarios): AsyncGenerator<SessionAnswer> {
  const model = inSession(scenarios.strategy(asked, asked.strategy).model);
  const luck = scenarios.luck(asked).replication(asked.replication);
  const { outcome, timeline, ...playing } = playSession(YOURS, model, luck, asked.decisions);
  if (outcome === null) {
    yield await Promise.resolve({ playing, afterwards: null });
    return;
  }
  const ruled = ruledSession(RULED, model, luck);
  yield await Promise.resolve({
    playing,
    afterwards: {
      accounts: [accountOf(YOURS, outcome, playing), accountOf(RULED, ruled.outcome, ruled)],
      timelines: [timeline, ruled.timeline],
    },
  });
}

const YOURS = 'as you decided';
const RULED = 'by the rules';
