import { estimateOf, shareOf } from '../../study/estimate.js';
import type { Estimate } from '../../study/results.js';
import { timePerGood } from '../../study/time-per-good.js';
import { paceChanges } from '../change.js';
import { againstBest, type Tried } from './against-best.js';
import { curvesSpec } from '../charts/curves.js';
import { drawn } from '../picture.js';
import type { Scenarios } from '../task.js';
import { type RefusedAt, settingsAt } from './settings.js';
import type { StrategyAsked } from './verdict.js';

export interface RushingAsked extends StrategyAsked {
  /** Which pace is varied; the other one is held. */
  readonly along: 'scan' | 'hands';
  /** Paces to try, ascending; the chosen one is among them. */
  readonly paces: readonly number[];
  readonly chosen: number;
  readonly held: number;
  readonly width: number;
}

/** Means over campaigns at one pace. */
export interface AtPace {
  readonly pace: number;
  /** Seconds of instrument time, for all images and for each good one. */
  readonly time: Estimate;
  readonly perGood: Estimate;
  /** Scans that were not kept, in one campaign. */
  readonly lost: Estimate;
  readonly yield: Estimate;
  readonly tips: Estimate;
  /** Whether a good image clearly takes more than at the best pace tried. */
  readonly isWorse: boolean;
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
  const { strategy, paces, along, held } = asked;
  const campaigns = scenarios.campaigns(asked);
  const known = new Map<number, Tried<Omit<AtPace, 'isWorse'>>>();
  const { ready, refused } = settingsAt(asked, scenarios, paces, (pace) =>
    along === 'scan' ? paceChanges(strategy, pace, held) : paceChanges(strategy, held, pace),
  );
  const of = ROUNDS[ROUNDS.length - 1];
  for (const round of ROUNDS) {
    for (const { at: pace, runnable } of ready) {
      const collected = campaigns.upTo(runnable, round).upTo(round);
      const { values } = collected;
      const numbers = timePerGood(collected);
      // Where nothing good was kept yet, there is nothing to show.
      if (numbers === null) continue;
      const point = {
        pace,
        time: estimateOf(values.instrumentTime),
        perGood: estimateOf(numbers),
        lost: estimateOf(values.takes.map((takes, i) => takes - values.good[i] - values.silentBad[i])),
        yield: shareOf(values.yield),
        tips: estimateOf(values.tips),
      };
      known.set(pace, { point, numbers });
      const points = againstBest([...known.values()]).toSorted((a, b) => a.pace - b.pace);
      yield { done: round, of, points, refused, svg: await picture(points, asked) };
    }
  }
}

const PACE_OF = { scan: 'scanning', hands: 'hands' } as const;

function picture(points: readonly AtPace[], { along, chosen, paces, width }: RushingAsked): Promise<string> {
  const curve = (title: string, of: (point: AtPace) => Estimate, divisor: number) => ({
    title,
    points: points.map((point) => {
      const { value, low, high } = of(point);
      return { at: point.pace, value: value / divisor, low: low / divisor, high: high / divisor };
    }),
  });
  const spec = curvesSpec({
    curves: [
      curve('Instrument time for a good image (minutes)', ({ perGood }) => perGood, 60),
      curve('Scans lost', ({ lost }) => lost, 1),
      curve('Yield (%)', ({ yield: share }) => share, 0.01),
    ],
    axis: `Pace of ${PACE_OF[along]} (1 is usual)`,
    domain: [Math.min(...paces), Math.max(...paces)],
    chosen,
    width,
  });
  return drawn(spec, {
    prefix: `rushing-${along}-picture`,
    title: 'What rushing does',
    description: `Instrument time for a good image, scans lost and yield against the pace of ${PACE_OF[along]}. The numbers are in the table below.`,
  });
}
