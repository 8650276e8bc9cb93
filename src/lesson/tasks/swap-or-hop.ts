import { LuckTable } from '../../chance/luck.js';
import { timelineSpec } from '../../report/charts/timeline.js';
import { pairedInterval } from '../../statistics/interval.js';
import { LEVEL, timeMeasureOf } from '../../study/differences.js';
import type { Estimate, Timeline } from '../../study/results.js';
import { timelineOf } from '../../study/trace.js';
import { drawn } from '../picture.js';
import type { Question, Scenarios } from '../task.js';

export interface SwapOrHopAsked extends Question {
  readonly swap: string;
  readonly hop: string;
  /** The afternoon whose timelines are shown, from 1. */
  readonly replication: number;
}

/** One afternoon in both ways, and the difference over many. */
export interface SwapOrHop {
  readonly done: number;
  readonly of: number;
  /** Seconds from start to end of the afternoon that is shown, swap then hop. */
  readonly ends: readonly [number, number];
  /** Seconds that hopping takes more than swapping, over the afternoons so far; null before the first of them. */
  readonly difference: Estimate | null;
  /** Share of afternoons in which hopping was the faster; null before the first. */
  readonly hopFaster: number | null;
  readonly svg: string | null;
}

const OF = 600;
const CHUNK = 60;

/** Both ways of working on the same luck: first one afternoon, then many. */
export async function* swapOrHop(asked: SwapOrHopAsked, scenarios: Scenarios): AsyncGenerator<SwapOrHop> {
  const ways = [asked.swap, asked.hop].map((name) => scenarios.strategy(asked, name));
  const afternoons = scenarios.afternoons(asked);
  const table = new LuckTable(afternoons.seed);
  const timelines = ways.map((way) => timelineOf(way, table, asked.replication));
  const ends = [endOf(timelines[0]), endOf(timelines[1])] as const;
  const spec = timelineSpec(timelines);
  const svg =
    spec === null
      ? null
      : await drawn(spec, {
          prefix: 'swap-or-hop-picture',
          title: 'One afternoon, swapped and hopped',
          description:
            'What the time went to in both ways, with the state of the tip below. The text beside says how long each took.',
        });
  yield { done: 0, of: OF, ends, difference: null, hopFaster: null, svg };
  const measure = timeMeasureOf(ways);
  for (let done = CHUNK; done <= OF; done += CHUNK) {
    const [swapped, hopped] = ways.map((way) => afternoons.upTo(way, done).values[measure].slice(0, done));
    const { mean, low, high } = pairedInterval(hopped, swapped, LEVEL);
    const faster = hopped.filter((time, i) => time < swapped[i]).length;
    yield { done, of: OF, ends, difference: { value: mean, low, high }, hopFaster: faster / done, svg: null };
  }
}

function endOf({ segments }: Timeline): number {
  return segments.reduce((last, { end }) => Math.max(last, end), 0);
}
