import type { TimePart } from '../../campaign/time-parts.js';
import { total } from '../../statistics/numbers.js';
import { estimateOf, shareOf } from '../../study/estimate.js';
import type { Campaigns } from '../../study/collector.js';
import type { Estimate } from '../../study/results.js';
import { timePerGood } from '../../study/time-per-good.js';
import { waitChanges } from '../change.js';
import { againstBest, type Tried } from './against-best.js';
import { curvesSpec } from '../charts/curves.js';
import { drawn } from '../picture.js';
import type { Scenarios } from '../task.js';
import { type RefusedAt, settingsAt } from './settings.js';
import type { StrategyAsked } from './verdict.js';

export interface WaitingAsked extends StrategyAsked {
  /** Minutes of settling after each change, ascending; the chosen one is among them. */
  readonly waits: readonly number[];
  readonly chosen: number;
  readonly width: number;
}

/** What a good image costs with so many minutes of settling after each change; seconds. */
export interface AtWait {
  readonly wait: number;
  readonly perGood: Estimate;
  /** Part of it: settling and warming up. */
  readonly settling: number;
  /** Part of it: scans lost to drift. */
  readonly drift: number;
  readonly yield: Estimate;
  /** Whether a good image clearly takes more than with the best wait tried. */
  readonly isWorse: boolean;
}

export interface Waiting {
  readonly done: number;
  readonly of: number;
  readonly points: readonly AtWait[];
  readonly refused: readonly RefusedAt[];
  readonly svg: string;
}

const ROUNDS = [20, 60, 200, 600];

/** The same campaigns for every wait, with common random numbers. */
export async function* waiting(asked: WaitingAsked, scenarios: Scenarios): AsyncGenerator<Waiting> {
  const { strategy, waits } = asked;
  const { workflow } = scenarios.strategy(asked, strategy).model;
  const { ready, refused } = settingsAt(asked, scenarios, waits, (wait) => waitChanges(strategy, workflow, wait));
  const campaigns = scenarios.campaigns(asked);
  const known = new Map<number, Tried<Omit<AtWait, 'isWorse'>>>();
  const of = ROUNDS[ROUNDS.length - 1];
  for (const round of ROUNDS) {
    for (const { at, runnable } of ready) {
      const point = atWait(at, campaigns.upTo(runnable, round).upTo(round));
      if (point === null) continue;
      known.set(at, point);
      const points = againstBest([...known.values()]).toSorted((a, b) => a.wait - b.wait);
      yield { done: round, of, points, refused, svg: await picture(points, asked) };
    }
  }
}

/** Null where no good image was kept. */
export function atWait(wait: number, campaigns: Campaigns): Tried<Omit<AtWait, 'isWorse'>> | null {
  const numbers = timePerGood(campaigns);
  if (numbers === null) return null;
  const good = total(campaigns.values.good);
  const spentOn = (part: TimePart) => total(campaigns.timeOn(part)) / good;
  const point = {
    wait,
    perGood: estimateOf(numbers),
    settling: spentOn('settling and warming up'),
    drift: spentOn('scans lost to drift'),
    yield: shareOf(campaigns.values.yield),
  };
  return { point, numbers };
}

/** The wait with which a good image takes least time. */
export function bestWait<Point extends Pick<AtWait, 'perGood'>>(points: readonly Point[]): Point {
  return points.reduce((least, each) => (each.perGood.value < least.perGood.value ? each : least));
}

function picture(points: readonly AtWait[], { waits, chosen, width }: WaitingAsked): Promise<string> {
  const curve = (title: string, of: (point: AtWait) => Estimate, divisor: number) => ({
    title,
    points: points.map((point) => {
      const { value, low, high } = of(point);
      return { at: point.wait, value: value / divisor, low: low / divisor, high: high / divisor };
    }),
  });
  const plain = (value: number) => ({ value, low: value, high: value });
  const spec = curvesSpec({
    curves: [
      curve('Instrument time for a good image (minutes)', ({ perGood }) => perGood, 60),
      curve('of it: settling and warming up (minutes)', ({ settling }) => plain(settling), 60),
      curve('of it: scans lost to drift (minutes)', ({ drift }) => plain(drift), 60),
      curve('Yield (%)', ({ yield: share }) => share, 0.01),
    ],
    axis: 'Minutes of settling after each change',
    domain: [Math.min(...waits), Math.max(...waits)],
    chosen,
    width,
  });
  return drawn(spec, {
    prefix: 'waiting-picture',
    title: 'Wait or scan?',
    description:
      'Instrument time for a good image, two parts of it, and the yield against the minutes of settling after each change. The numbers are in the table below.',
  });
}
