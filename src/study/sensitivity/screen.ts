import { type LuckTable, PURPOSES } from '../../chance/luck.js';
import type { LoadedScenario } from '../../scenario/load.js';
import { meanInterval } from '../../statistics/interval.js';
import { effectsAlong, morrisMeasures, randomTrajectory } from '../../statistics/morris.js';
import { LEVEL } from '../differences.js';
import { estimateOf } from '../estimate.js';
import { pairIn } from '../pair.js';
import { replicate, type Runnable } from '../replicate.js';
import { placeAt } from '../vary/axis.js';
import { whatCounts } from '../what-counts.js';
import { type Input, put } from './inputs.js';
import type { Morris } from './results.js';
import type { Here } from './standing.js';

const LEVELS = 4;
const REPLICATIONS = 12;
const TRAJECTORIES = { least: 4, most: 16 };
/** Campaigns that a screening may take; two at every replication of every point. */
const MOST_CAMPAIGNS = 16_000;

/** Trajectories that can be afforded for so many inputs. */
export function trajectoriesFor(inputs: number): number {
  const affordable = Math.floor(MOST_CAMPAIGNS / (2 * REPLICATIONS * (inputs + 1)));
  return Math.max(TRAJECTORIES.least, Math.min(TRAJECTORIES.most, affordable));
}

/**
 * Elementary effects of all inputs on the difference of the two, each over its whole range while all others are anywhere
 * within theirs. Within a trajectory every point has the same luck; each trajectory has luck of its own.
 */
export function screen(
  here: Here,
  inputs: readonly Input[],
  table: LuckTable,
  onTrajectory: (done: number, of: number, campaigns: number) => void,
): Morris | null {
  if (inputs.length === 0) return null;
  const trajectories = trajectoriesFor(inputs.length);
  const effects = inputs.map((): number[] => []);
  const variances: number[] = [];
  const shares: number[] = [];
  const luck = table.replication(0);
  let campaigns = 0;
  for (let number = 0; number < trajectories; number += 1) {
    const walk = randomTrajectory(inputs.length, LEVELS, (kind, input) =>
      luck.uniform(PURPOSES.elementaryEffects, kind, input, number, 0),
    );
    const walker = new Walker(here, inputs, table, 1 + number * REPLICATIONS);
    for (const { input, values } of effectsAlong(walk, (point) => walker.at(point))) {
      const { mean, standardDeviation } = meanInterval(values, LEVEL);
      effects[input].push(mean);
      variances.push((standardDeviation * standardDeviation) / values.length);
    }
    shares.push(walker.signs.filter((isOther) => isOther).length / walker.signs.length);
    campaigns += walker.campaigns;
    onTrajectory(number + 1, trajectories, campaigns);
  }
  // Points of one trajectory hang together, so the interval is over trajectories.
  const others = estimateOf(shares);
  return {
    trajectories,
    levels: LEVELS,
    replications: REPLICATIONS,
    effects: inputs
      .flatMap(({ entry }, input) => {
        if (effects[input].length < 2) return [];
        const { mu, sigma, effects: count } = morrisMeasures(effects[input]);
        const muStar = estimateOf(effects[input].map(Math.abs));
        return [{ path: entry.path, description: entry.description, mu, muStar, sigma, effects: count }];
      })
      .sort((a, b) => b.muStar.value - a.muStar.value),
    noise: Math.sqrt(variances.reduce((sum, variance) => sum + variance, 0) / Math.max(1, variances.length)),
    otherSign: { value: others.value, low: Math.max(0, others.low), high: Math.min(1, others.high) },
  };
}

/** Goes from point to point, changing only what moves. */
class Walker {
  /** Of the points so far, whether the mean difference has another sign than with all values as they stand. */
  readonly signs: boolean[] = [];
  campaigns = 0;
  private scenario: LoadedScenario;
  private point: readonly (number | null)[];
  private last: readonly (Run | null)[] = [null, null];

  constructor(
    private readonly here: Here,
    private readonly inputs: readonly Input[],
    private readonly table: LuckTable,
    private readonly from: number,
  ) {
    this.scenario = here.loaded;
    this.point = inputs.map(() => null);
  }

  /** Differences at a point; null where a value cannot be put there, which then stays where it was. */
  at(point: readonly number[]): readonly number[] | null {
    const isMoved = point.map((share, number) => share === this.point[number] || this.move(number, share));
    this.point = point;
    const runs = pairIn(this.scenario, this.here.between).map((strategy, place) =>
      this.run(strategy, this.last[place]),
    );
    this.last = runs;
    const [first, second] = runs;
    const differences = second.values.map((value, i) => value - first.values[i]);
    const mean = differences.reduce((sum, difference) => sum + difference, 0);
    this.signs.push(mean * this.here.difference.value < 0);
    return isMoved.includes(false) ? null : differences;
  }

  /** Puts a value to a share of its range. Gives whether that could be done. */
  private move(number: number, share: number): boolean {
    const input = this.inputs[number];
    const { setting } = placeAt(input.axis, share);
    if (typeof setting !== 'number' && typeof setting !== 'string') return false;
    const changed = put(this.scenario, input, setting);
    if (changed.ok) this.scenario = changed.scenario;
    return changed.ok;
  }

  /** The campaigns of a strategy; those of the point before, where nothing that counts was changed. */
  private run(strategy: Runnable, last: Run | null): Run {
    const counts = whatCounts(strategy);
    if (last?.counts === counts) return last;
    this.campaigns += REPLICATIONS;
    const values = Array.from(
      { length: REPLICATIONS },
      (_, i) => replicate(strategy, this.table, this.from + i)[this.here.measure],
    );
    return { counts, values };
  }
}

/** What a strategy came to at a point, and by what it is known again. */
interface Run {
  readonly counts: string;
  readonly values: readonly number[];
}
