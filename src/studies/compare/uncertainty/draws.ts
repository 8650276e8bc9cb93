import { LuckTable } from '../../../chance/luck.js';
import type { LoadedScenario } from '../../../scenario/load.js';
import { drawerOf, drawing } from '../../../scenario/draw.js';
import type { UnknownInput } from '../../../scenario/uncertainty.js';
import type { Collector } from '../../../execution/collector.js';
import { measureOf } from '../../../analysis/differences.js';
import type { Runnable } from '../../../execution/replicate.js';
import type { DrawSize } from '../../../analysis/worth/drawn.js';
import { COMPARED, type ComparedMeasure } from '../../../analysis/compared-measures.js';
import { Runs } from '../../../execution/runs.js';
import { Columns } from '../../../execution/columns.js';
import type { JobResult, Task } from '../../../execution/job.js';
import { completed, type Work } from '../../../execution/work.js';

/** What was compared at the scenario's values, on which luck. */
export interface Compared {
  readonly loaded: LoadedScenario;
  readonly strategies: readonly Runnable[];
  /** Of the luck. */
  readonly seed: string;
  readonly collectors: readonly Collector[];
}

/** Values of one strategy by measure. */
export type ByMeasure = Readonly<Record<ComparedMeasure, Float64Array>>;

/** Campaigns of each strategy at the scenario's values, on all the luck that the draws meet. */
export function* campaignsHere(
  { strategies, collectors, seed }: Compared,
  { draws, replications }: DrawSize,
): Work<readonly ByMeasure[]> {
  const count = draws * replications;
  const here = strategies.map((strategy, i) =>
    collectors[i].count >= count ? collectors[i] : new Runs(strategy, seed),
  );
  yield* completed(here.flatMap((runs) => (runs instanceof Runs ? runs.tasksTo(count) : [])));
  return here.map(({ values }) => perCompared((measure) => values[measureOf(measure)].subarray(0, count)));
}

/**
 * The outer loop: draws these inputs, and runs all strategies on each draw, with common random numbers as at the scenario's values.
 * A draw depends on its number alone. Every draw has random numbers of its own: shared by all draws, the luck of so few replications
 * would show in every draw alike, and could not be told from what the draws have in common.
 */
export class DrawnCampaigns {
  private readonly columns: readonly Columns[];
  /** Places of the strategies that the draws touch; one that sets all that is drawn itself is as it was. */
  private readonly touched: readonly number[];

  /** @param here campaigns at the scenario's values with common random numbers */
  constructor(
    private readonly compared: Compared,
    private readonly inputs: readonly UnknownInput[],
    private readonly size: DrawSize,
    private readonly here: readonly ByMeasure[],
  ) {
    const { loaded, seed } = compared;
    const { strategies } = drawing(loaded, inputs)(new LuckTable(seed).replication(1));
    this.touched = loaded.strategies.flatMap(({ settings }, place) =>
      strategies[place].settings === settings ? [] : [place],
    );
    this.columns = this.touched.map(() => new Columns());
  }

  /** What it takes to have them. */
  get tasks(): readonly Task[] {
    const { compared, touched, inputs, size } = this;
    const { loaded, seed } = compared;
    if (touched.length === 0) return [];
    const experiment = {
      kind: 'drawn' as const,
      scenario: loaded,
      inputs: inputs.map(({ path }) => path),
      perDraw: size.replications,
      parts: touched.map((place) => ({ name: loaded.strategies[place].name, over: {} })),
    };
    const names = COMPARED.map((measure) => measureOf(measure));
    const take = (result: JobResult) => {
      result.forEach(({ count, columns }, part) => {
        this.columns[part].append(count, Object.fromEntries(names.map((name) => [name, columns[name]])));
      });
    };
    return [{ job: { experiment, seed, from: 1, to: size.draws * size.replications, wants: {} }, take }];
  }

  /** By strategy: the replications of all draws, draw by draw. */
  get values(): readonly ByMeasure[] {
    return this.here.map((here, place) => {
      const columns = this.columns.at(this.touched.indexOf(place));
      if (columns === undefined || !this.touched.includes(place)) return here;
      return perCompared((measure) => columns.of(measureOf(measure)));
    });
  }

  /** How many draws of an input were brought back to what the schema allows. */
  clipped(input: UnknownInput): number {
    if (this.touched.length === 0) return 0;
    const table = new LuckTable(this.compared.seed);
    const drawnBy = drawerOf(input);
    const numbers = Array.from({ length: this.size.draws }, (_, i) => i + 1);
    return numbers.filter((draw) => drawnBy(table.replication(draw)).some(({ isClipped }) => isClipped)).length;
  }
}

function perCompared<Value>(of: (measure: ComparedMeasure) => Value): Record<ComparedMeasure, Value> {
  return {
    time: of('time'),
    operatorTime: of('operatorTime'),
    yield: of('yield'),
    undetectedBadShare: of('undetectedBadShare'),
    tips: of('tips'),
    cost: of('cost'),
  };
}
