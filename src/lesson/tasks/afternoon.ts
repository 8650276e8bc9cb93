import { ACTIVITY_NUMBER } from '../../campaign/activities.js';
import type { Outcome } from '../../campaign/outcome.js';
import { SECOND } from '../../kernel/clock.js';
import { LuckTable } from '../../chance/luck.js';
import type { Timeline } from '../../study/results.js';
import type { Decision } from '../afternoon/choices.js';
import { type Afternoon, playAfternoon, ruledAfternoon } from '../afternoon/play.js';
import { timelineSpec } from '../../report/charts/timeline.js';
import { drawn } from '../picture.js';
import type { Scenarios } from '../task.js';
import type { StrategyAsked } from './verdict.js';

export interface AfternoonAsked extends StrategyAsked {
  /** Numbered from 1, as in `replications.csv`. */
  readonly replication: number;
  readonly decisions: readonly Decision[];
}

/** What one afternoon came to. Times in seconds. */
export interface Account {
  readonly name: string;
  readonly totalTime: number;
  readonly lostScanning: number;
  readonly yield: number;
  readonly good: number;
  readonly silentBad: number;
  readonly unkept: number;
  readonly tips: number;
  readonly takes: number;
}

/** What is shown while it is played. */
export type Playing = Omit<Afternoon, 'outcome' | 'timeline'>;

export interface AfternoonAnswer {
  readonly playing: Playing;
  /** The person's afternoon and the one by the rules; null before the end. */
  readonly afterwards: {
    readonly accounts: readonly [yours: Account, ruled: Account];
    readonly timelines: readonly [yours: Timeline, ruled: Timeline];
    readonly svg: string;
  } | null;
}

/** One afternoon as far as it is decided, and at its end what the rules would have done with the same luck. */
export async function* afternoon(asked: AfternoonAsked, scenarios: Scenarios): AsyncGenerator<AfternoonAnswer> {
  const { model } = scenarios.strategy(asked, asked.strategy);
  const luck = new LuckTable(scenarios.with(asked).loaded.base.seed).replication(asked.replication);
  const { outcome, timeline, ...playing } = playAfternoon(YOURS, model, luck, asked.decisions);
  if (outcome === null) {
    yield await Promise.resolve({ playing, afterwards: null });
    return;
  }
  const ruled = ruledAfternoon(RULED, model, luck);
  const timelines = [timeline, ruled.timeline] as const;
  yield await Promise.resolve({
    playing,
    afterwards: {
      accounts: [accountOf(YOURS, outcome), accountOf(RULED, ruled.outcome)],
      timelines,
      svg: await pictureOfBoth(timelines),
    },
  });
}

async function pictureOfBoth(timelines: readonly Timeline[]): Promise<string> {
  const spec = timelineSpec(timelines);
  if (spec === null) return '';
  return drawn(spec, {
    prefix: 'afternoon',
    title: 'Both afternoons',
    description: 'What the time went to, as you decided and by the rules, with the state of the tip below each.',
  });
}

const YOURS = 'as you decided';
const RULED = 'by the rules';
function accountOf(name: string, outcome: Outcome): Account {
  const { totalTime, good, silentBad, givenUp, missing, tips, takes, split } = outcome;
  const lost = split.reduce((sum, row) => sum + row[ACTIVITY_NUMBER['scanning lost']], 0);
  return {
    ...{ name, totalTime, good, silentBad, tips, takes },
    lostScanning: lost / SECOND,
    yield: outcome.yield,
    unkept: givenUp + missing,
  };
}
