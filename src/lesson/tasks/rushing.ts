import { estimateOf, shareOf } from '../../analysis/estimate.js';
import type { Estimate } from '../../statistics/estimate.js';
import type { Campaigns } from '../../execution/collector.js';
import { timePerGood } from '../../analysis/time-per-good.js';
import { paceChanges } from '../change.js';
import { againstBest, type Tried } from './against-best.js';
import type { Scenarios } from '../task.js';
import { type Varied, varied } from './settings.js';
import type { StrategyAsked } from './verdict.js';

export interface RushingAsked extends StrategyAsked {
  /** Which pace is varied; the other one is held. */
  readonly along: 'scan' | 'hands';
  /** Tried beside those that always are. */
  readonly chosen: number;
  readonly held: number;
}

/** Means over campaigns at one pace. */
export interface AtPace {
  readonly at: number;
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

const PACES = [0.5, 0.75, 1, 1.25, 1.5, 1.75, 2, 2.5, 3];
const ROUNDS = [20, 60, 200, 500, 1000];

export function rushing(asked: RushingAsked, scenarios: Scenarios): AsyncGenerator<Varied<AtPace>> {
  const { strategy, along, held } = asked;
  return varied(asked, scenarios, {
    values: PACES,
    changesAt: (pace) => (along === 'scan' ? paceChanges(strategy, pace, held) : paceChanges(strategy, held, pace)),
    rounds: ROUNDS,
    tryAt: (at, collector, round) => atPace(at, collector.upTo(round)),
    pointsOf: againstBest,
  });
}

/** Null where no good image was kept. */
function atPace(at: number, campaigns: Campaigns): Tried<Omit<AtPace, 'isWorse'>> | null {
  const { values } = campaigns;
  const numbers = timePerGood(campaigns);
  if (numbers === null) return null;
  const point = {
    at,
    time: estimateOf(values.instrumentTime),
    perGood: estimateOf(numbers),
    lost: estimateOf(values.takes.map((takes, i) => takes - values.good[i] - values.undetectedBad[i])),
    yield: shareOf(values.yield),
    tips: estimateOf(values.tips),
  };
  return { point, numbers };
}
