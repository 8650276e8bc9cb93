import type { TimePart } from '../../campaign/time-parts.js';
import { total } from '../../statistics/numbers.js';
import { estimateOf, shareOf } from '../../analysis/estimate.js';
import type { Estimate } from '../../statistics/estimate.js';
import type { Campaigns } from '../../execution/collector.js';
import { timePerGood } from '../../analysis/time-per-good.js';
import { waitChanges } from '../change.js';
import { againstBest, type Tried } from './against-best.js';
import type { Scenarios } from '../task.js';
import { type Varied, varied } from './settings.js';
import type { StrategyAsked } from './verdict.js';

export interface WaitingAsked extends StrategyAsked {
  /** Minutes of settling after each change, tried beside those that always are. */
  readonly chosen: number;
}

/** What a good image costs with so many minutes of settling after each change; seconds. */
export interface AtWait {
  readonly at: number;
  readonly perGood: Estimate;
  /** Part of it: settling and warming up. */
  readonly settling: number;
  /** Part of it: scans lost to drift. */
  readonly drift: number;
  readonly yield: Estimate;
  /** Whether a good image clearly takes more than with the best wait tried. */
  readonly isWorse: boolean;
}

/** Minutes of settling after each change that are always tried. */
export const WAITS = [0, 1, 2, 4, 6, 8, 10, 12, 15, 20, 25, 30];
const ROUNDS = [20, 60, 200, 600];

export function waiting(asked: WaitingAsked, scenarios: Scenarios): AsyncGenerator<Varied<AtWait>> {
  const { strategy } = asked;
  const { workflow } = scenarios.strategy(asked, strategy).model;
  return varied(asked, scenarios, {
    values: WAITS,
    changesAt: (wait) => waitChanges(strategy, workflow, wait),
    rounds: ROUNDS,
    tryAt: (at, collector, round) => atWait(at, collector.upTo(round)),
    pointsOf: againstBest,
  });
}

/** Null where no good image was kept. */
export function atWait(at: number, campaigns: Campaigns): Tried<Omit<AtWait, 'isWorse'>> | null {
  const numbers = timePerGood(campaigns);
  if (numbers === null) return null;
  const good = total(campaigns.values.good);
  const spentOn = (part: TimePart) => total(campaigns.timeOn(part)) / good;
  const point = {
    at,
    perGood: estimateOf(numbers),
    settling: spentOn('settling and warming up'),
    drift: spentOn('scans lost to drift'),
    yield: shareOf(campaigns.values.yield),
  };
  return { point, numbers };
}
