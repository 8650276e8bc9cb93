import type { LoadedScenario } from '../../scenario/load.js';
import { pairedInterval } from '../../statistics/interval.js';
import { average } from '../../statistics/numbers.js';
import { lookAt, relativeHalfWidth } from '../../statistics/stopping.js';
import type { Pair } from '../../analysis/vary/curve.js';
import { differenceIn, LEVEL } from '../../analysis/differences.js';
import type { KnownMean } from '../../analysis/estimate.js';
import type { Pool } from '../../execution/pool.js';
import { pairIn } from '../../analysis/pair.js';
import type { Measure } from '../../execution/measures.js';
import { completed, type Work } from '../../execution/work.js';

/** What everything is held against: the two strategies with all values as they stand. */
export interface Here {
  readonly loaded: LoadedScenario;
  readonly between: readonly [string, string];
  readonly measure: Measure;
  readonly pool: Pool;
  readonly pair: Pair;
  readonly difference: KnownMean & { readonly low: number; readonly high: number };
  readonly replications: number;
  readonly stopping: string;
}

const PRECISION = 0.01;
const MOST = 1600;

/** Runs the two until their difference is known to a share of the first one's mean. */
export function* standing(
  loaded: LoadedScenario,
  between: readonly [string, string],
  measure: Measure,
  pool: Pool,
  onCampaigns: () => void,
): Work<Here> {
  const [first, second] = pairIn(loaded, between).map((strategy) => pool.runsOf(strategy));
  for (let look = 0; ; look += 1) {
    const replications = lookAt(look);
    yield* completed([first, second].flatMap((runs) => runs.tasksTo(replications)));
    onCampaigns();
    const paired = pairedInterval(second.values[measure], first.values[measure], LEVEL);
    const { mean, low, high, halfWidth } = differenceIn(measure, paired);
    const reference = average(first.values[measure]);
    const isKnown = halfWidth === 0 || (reference !== 0 && relativeHalfWidth(halfWidth, reference) <= PRECISION);
    if (!isKnown && 2 * replications <= MOST) continue;
    return {
      ...{ loaded, between, measure, pool, replications, pair: { first, second } },
      difference: { value: mean, low, high, halfWidth },
      stopping: isKnown
        ? `the difference with all values as they stand was known to ±1 % of the first strategy’s mean after ${replications} replications`
        : `the difference with all values as they stand was not yet known to ±1 % of the first strategy’s mean at the limit of ${replications} replications`,
    };
  }
}
