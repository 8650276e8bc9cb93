import { estimateOf, shareOf } from '../../study/estimate.js';
import type { Estimate } from '../../study/results.js';
import { paceChanges } from '../change.js';
import { curvesSpec } from '../charts/curves.js';
import { drawn } from '../picture.js';
import type { Scenarios } from '../task.js';
import { type RefusedAt, settingsAt } from './settings.js';
import type { StrategyAsked } from './verdict.js';

export interface RushingAsked extends StrategyAsked {
  /** Paces of scanning to try, ascending; the chosen one is among them. */
  readonly paces: readonly number[];
  readonly chosen: number;
  readonly hands: number;
  readonly width: number;
}

/** Means over campaigns at one pace of scanning. */
export interface AtPace {
  readonly pace: number;
  /** Seconds. */
  readonly time: Estimate;
  /** Scans that were not kept, in one campaign. */
  readonly lost: Estimate;
  readonly yield: Estimate;
  readonly tips: Estimate;
}

export interface Rushing {
  readonly done: number;
  readonly of: number;
  readonly points: readonly AtPace[];
  /** Paces at which the scenario makes no sense, and why. */
  readonly refused: readonly RefusedAt[];
  readonly svg: string;
}

/** The curve is there at once, and grows steady in a few rounds. */
const ROUNDS = [20, 60, 200, 500, 1000];

/** The same campaigns at every pace, with common random numbers. */
export async function* rushing(asked: RushingAsked, scenarios: Scenarios): AsyncGenerator<Rushing> {
  const { strategy, paces, hands } = asked;
  const campaigns = scenarios.campaigns(asked);
  const known = new Map<number, AtPace>();
  const { ready, refused } = settingsAt(asked, scenarios, paces, (pace) => paceChanges(strategy, pace, hands));
  const of = ROUNDS[ROUNDS.length - 1];
  for (const round of ROUNDS) {
    for (const { at: pace, runnable } of ready) {
      const { values } = campaigns.upTo(runnable, round);
      const firstOf = (all: Float64Array) => all.subarray(0, round);
      known.set(pace, {
        pace,
        time: estimateOf(firstOf(values.instrumentTime)),
        lost: estimateOf(firstOf(values.takes).map((takes, i) => takes - values.good[i] - values.silentBad[i])),
        yield: shareOf(firstOf(values.yield)),
        tips: estimateOf(firstOf(values.tips)),
      });
      const points = [...known.values()].sort((a, b) => a.pace - b.pace);
      yield { done: round, of, points, refused, svg: await picture(points, asked) };
    }
  }
}

function picture(points: readonly AtPace[], { chosen, paces, width }: RushingAsked): Promise<string> {
  const curve = (title: string, of: (point: AtPace) => Estimate, divisor: number) => ({
    title,
    points: points.map((point) => {
      const { value, low, high } = of(point);
      return { at: point.pace, value: value / divisor, low: low / divisor, high: high / divisor };
    }),
  });
  const spec = curvesSpec({
    curves: [
      curve('Instrument time for all images (hours)', ({ time }) => time, 3600),
      curve('Scans lost', ({ lost }) => lost, 1),
      curve('Yield (%)', ({ yield: share }) => share, 0.01),
    ],
    axis: 'Pace of scanning (1 is usual)',
    domain: [Math.min(...paces), Math.max(...paces)],
    chosen,
    width,
  });
  return drawn(spec, {
    prefix: 'rushing-picture',
    title: 'What rushing does',
    description: `The instrument time, scans lost and yield against the pace of scanning. The numbers are in the table below.`,
  });
}
