import { LuckTable } from '../../chance/luck.js';
import { pairedInterval } from '../../statistics/interval.js';
import { LEVEL } from '../../analysis/differences.js';
import type { Estimate } from '../../statistics/estimate.js';
import { replicate } from '../../execution/replicate.js';
import type { Measure } from '../../execution/measures.js';
import type { Timeline } from '../../analysis/results.js';
import { timelineOf } from '../../analysis/trace.js';
import type { Question, Scenarios } from '../task.js';

export interface SwapOrHopAsked extends Question {
  readonly swap: string;
  readonly hop: string;
  /** The campaign whose timelines are shown, from 1. */
  readonly replication: number;
}

/** Seconds of one campaign. */
export interface Spent {
  readonly time: number;
  readonly operator: number;
}

/** One campaign in both workflows, and the differences over many. */
export interface SwapOrHop {
  readonly done: number;
  readonly of: number;
  /** Of the campaign that is shown, swap then hop. */
  readonly spent: readonly [Spent, Spent];
  /** Over the campaigns so far; null before the first of them. */
  readonly many: {
    /** Seconds that hop takes more than swap, of the instrument's time and of the operators'. */
    readonly difference: Estimate;
    readonly operator: Estimate;
    /** Share of campaigns in which hop took less time. */
    readonly hopFaster: number;
  } | null;
  readonly timelines: readonly Timeline[];
}

const OF = 600;
const CHUNK = 60;

/** Both workflows with common random numbers: first one campaign, then many. */
export async function* swapOrHop(asked: SwapOrHopAsked, scenarios: Scenarios): AsyncGenerator<SwapOrHop> {
  const ways = [asked.swap, asked.hop].map((name) => scenarios.strategy(asked, name));
  const campaigns = scenarios.campaigns(asked);
  const table = new LuckTable(campaigns.seed);
  const [swapped, hopped] = ways.map((way): Spent => {
    const outcome = replicate(way, table, asked.replication);
    return { time: outcome.instrumentTime, operator: outcome.operatorTime };
  });
  const timelines = ways.map((way) => timelineOf(way, table, asked.replication));
  const shown = { of: OF, spent: [swapped, hopped] as const, timelines };
  yield await Promise.resolve({ ...shown, done: 0, many: null });
  for (let done = CHUNK; done <= OF; done += CHUNK) {
    const [swaps, hops] = ways.map((way) => campaigns.upTo(way, done).values);
    const less = (of: Measure): Estimate => {
      const { mean, low, high } = pairedInterval(hops[of].slice(0, done), swaps[of].slice(0, done), LEVEL);
      return { value: mean, low, high };
    };
    const faster = hops.instrumentTime.slice(0, done).filter((time, i) => time < swaps.instrumentTime[i]).length;
    const many = { difference: less('instrumentTime'), operator: less('operatorTime'), hopFaster: faster / done };
    yield { ...shown, done, many };
  }
}
