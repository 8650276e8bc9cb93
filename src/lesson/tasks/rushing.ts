import { timeMeasureOf } from '../../study/differences.js';
import { estimateOf } from '../../study/estimate.js';
import type { Runnable } from '../../study/replicate.js';
import type { Estimate } from '../../study/results.js';
import { paceChanges } from '../change.js';
import { Refused } from '../changed-scenario.js';
import { curvesSpec } from '../charts/curves.js';
import { drawn } from '../picture.js';
import type { Question, Scenarios } from '../task.js';

export interface RushingAsked extends Question {
  readonly strategy: string;
  /** Paces of scanning to try, ascending; the chosen one is among them. */
  readonly paces: readonly number[];
  readonly chosen: number;
  readonly hands: number;
  readonly width: number;
}

/** Means over afternoons at one pace of scanning. */
export interface AtPace {
  readonly pace: number;
  /** Seconds. */
  readonly time: Estimate;
  /** Scans that were not kept, an afternoon. */
  readonly lost: Estimate;
  readonly yield: Estimate;
  readonly tips: Estimate;
}

export interface Rushing {
  readonly done: number;
  readonly of: number;
  readonly points: readonly AtPace[];
  /** Paces at which the scenario makes no sense, and why. */
  readonly refused: readonly { readonly pace: number; readonly message: string }[];
  readonly svg: string;
}

/** The curve is there at once, and grows steady in a few rounds. */
const ROUNDS = [20, 60, 200, 500, 1000];

/** The same afternoons at every pace, on the same luck. */
export async function* rushing(asked: RushingAsked, scenarios: Scenarios): AsyncGenerator<Rushing> {
  const { strategy, paces, hands, chosen, width } = asked;
  const afternoons = scenarios.afternoons(asked);
  const at = new Map<number, AtPace>();
  const ready: { readonly pace: number; readonly runnable: Runnable }[] = [];
  const refused: { readonly pace: number; readonly message: string }[] = [];
  for (const pace of paces) {
    const changes = [...asked.changes, ...paceChanges(strategy, pace, hands)];
    try {
      ready.push({ pace, runnable: scenarios.strategy({ ...asked, changes }, strategy) });
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      refused.push({ pace, message: error.message });
    }
  }
  const of = ROUNDS[ROUNDS.length - 1];
  for (const round of ROUNDS) {
    for (const { pace, runnable } of ready) {
      const { values } = afternoons.upTo(runnable, round);
      at.set(pace, {
        pace,
        time: estimateOf(values[timeMeasureOf([runnable])]),
        lost: estimateOf(values.takes.map((takes, i) => takes - values.good[i] - values.silentBad[i])),
        yield: estimateOf(values.yield),
        tips: estimateOf(values.tips),
      });
      const points = [...at.values()].sort((a, b) => a.pace - b.pace);
      yield { done: round, of, points, refused, svg: await picture(points, chosen, paces, width) };
    }
  }
}

function picture(points: readonly AtPace[], chosen: number, paces: readonly number[], width: number): Promise<string> {
  const curve = (title: string, of: (point: AtPace) => Estimate, divisor: number) => ({
    title,
    points: points.map((point) => {
      const { value, low, high } = of(point);
      return { at: point.pace, value: value / divisor, low: low / divisor, high: high / divisor };
    }),
  });
  const spec = curvesSpec({
    curves: [
      curve('Total time of the afternoon (hours)', ({ time }) => time, 3600),
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
    title: 'What a hurry does',
    description: 'Total time, scans lost and yield against the pace of scanning. The numbers stand in the table below.',
  });
}
