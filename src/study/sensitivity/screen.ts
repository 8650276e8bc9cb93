import { LuckTable, PURPOSES } from '../../chance/luck.js';
import type { LoadedScenario } from '../../scenario/load.js';
import { meanInterval } from '../../statistics/interval.js';
import {
  effectsAlong,
  morrisMeasures,
  pointsAlong,
  randomTrajectory,
  type Trajectory,
} from '../../statistics/morris.js';
import { less, total } from '../../statistics/numbers.js';
import { LEVEL } from '../differences.js';
import { estimateOf, shareOf } from '../estimate.js';
import { pairIn } from '../pair.js';
import type { Runnable } from '../replicate.js';
import { Runs } from '../runs.js';
import { placeAt } from '../vary/axis.js';
import { whatCounts } from '../what-counts.js';
import type { Meter } from '../work/meter.js';
import type { Errand } from '../work/order.js';
import { answered, type Work } from '../work/work.js';
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

/** What a screening found, and what it took. */
export interface Screened {
  /** Null where there is nothing to screen. */
  readonly morris: Morris | null;
  readonly campaigns: number;
}

/**
 * Elementary effects of all inputs on the difference of the two, each over its whole range while all others are anywhere
 * within theirs. Within a trajectory every point has the same luck; each trajectory has luck of its own.
 */
export function* screen(here: Here, inputs: readonly Input[], seed: string, meter: Meter): Work<Screened> {
  if (inputs.length === 0) return { morris: null, campaigns: 0 };
  const luck = new LuckTable(seed).replication(0);
  const walks = Array.from({ length: trajectoriesFor(inputs.length) }, (_, number) => {
    const trajectory = randomTrajectory(inputs.length, LEVELS, (kind, input) =>
      luck.uniform(PURPOSES.elementaryEffects, kind, input, number, 0),
    );
    return { trajectory, walker: new Walker(here, inputs, seed, 1 + number * REPLICATIONS) };
  });
  yield* answered(meter.over(errandsOf(walks)));
  const effects = inputs.map((): number[] => []);
  const variances: number[] = [];
  for (const { trajectory, walker } of walks) {
    for (const { input, values } of effectsAlong(trajectory, walker.differences)) {
      const { mean, standardDeviation } = meanInterval(values, LEVEL);
      effects[input].push(mean);
      variances.push((standardDeviation * standardDeviation) / values.length);
    }
  }
  // Points of one trajectory hang together, so the interval is over trajectories.
  const otherSign = shareOf(walks.map(({ walker }) => walker.shareOfOtherSign));
  const morris = {
    trajectories: walks.length,
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
    otherSign,
  };
  return { morris, campaigns: walks.reduce((sum, { walker }) => sum + walker.campaigns, 0) };
}

interface Walk {
  readonly trajectory: Trajectory;
  readonly walker: Walker;
}

function* errandsOf(walks: readonly Walk[]): Generator<Errand> {
  for (const { trajectory, walker } of walks) for (const point of pointsAlong(trajectory)) yield* walker.goTo(point);
}

/** A point at which the walker was, with what the two came to there. */
interface Halt {
  /** Whether every value could be put where the point has it. */
  readonly isThere: boolean;
  readonly runs: readonly Run[];
}

/** Goes from point to point, changing only what moves. */
class Walker {
  campaigns = 0;
  private readonly halts: Halt[] = [];
  private scenario: LoadedScenario;
  private point: readonly (number | null)[];
  private last: readonly (Run | null)[] = [null, null];

  constructor(
    private readonly here: Here,
    private readonly inputs: readonly Input[],
    private readonly seed: string,
    private readonly from: number,
  ) {
    this.scenario = here.loaded;
    this.point = inputs.map(() => null);
  }

  /** What it takes to know the difference at a point; a value that cannot be put there stays where it was. */
  goTo(point: readonly number[]): readonly Errand[] {
    const isMoved = point.map((share, number) => share === this.point[number] || this.move(number, share));
    this.point = point;
    const runs = pairIn(this.scenario, this.here.between).map((strategy, place) =>
      this.run(strategy, this.last[place]),
    );
    this.last = runs;
    this.halts.push({ isThere: !isMoved.includes(false), runs });
    return runs.flatMap((run) => run.errandsTo(REPLICATIONS));
  }

  /** Differences at the points so far, once the errands are answered; null where a value could not be put. */
  get differences(): readonly (readonly number[] | null)[] {
    return this.halts.map((halt) => (halt.isThere ? Array.from(this.differencesAt(halt)) : null));
  }

  /** Of the points so far, the share at which the mean difference has another sign than with all values as they stand. */
  get shareOfOtherSign(): number {
    const { here, halts } = this;
    const isOther = (halt: Halt) => total(this.differencesAt(halt)) * here.difference.value < 0;
    return halts.filter(isOther).length / halts.length;
  }

  private differencesAt({ runs: [first, second] }: Halt): Float64Array {
    const { measure } = this.here;
    return less(second.values[measure], first.values[measure]);
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
    return new Run(counts, strategy, this.seed, this.from);
  }
}

/** What a strategy came to at a point, and by what it is known again. */
class Run extends Runs {
  constructor(
    readonly counts: string,
    strategy: Runnable,
    seed: string,
    first: number,
  ) {
    super(strategy, seed, {}, first);
  }
}
