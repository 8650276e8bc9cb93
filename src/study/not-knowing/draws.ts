import { LuckTable } from '../../chance/luck.js';
import type { LoadedScenario } from '../../scenario/load.js';
import { withDraw } from '../../scenario/uncertainty-draw.js';
import type { UnknownInput } from '../../scenario/unknown-input.js';
import { countOf } from '../../statistics/numbers.js';
import type { Collector } from '../collector.js';
import { measureOf } from '../differences.js';
import type { Runnable } from '../replicate.js';
import { COMPARED, type ComparedMeasure } from '../compared-measures.js';
import { Runs } from '../runs.js';
import { clippedColumn } from '../work/drawn.js';
import { Columns } from '../work/columns.js';
import type { Answer, Errand } from '../work/order.js';
import { answered, type Work } from '../work/work.js';

/** What was compared at the scenario's values, on which luck. */
export interface Compared {
  readonly loaded: LoadedScenario;
  readonly strategies: readonly Runnable[];
  /** Of the luck. */
  readonly seed: string;
  readonly collectors: readonly Collector[];
}

/** Number of draws, and of replications of each: draw 1 has the first ones, draw 2 the next, and so on. */
export interface Size {
  readonly draws: number;
  readonly replications: number;
}

/** Values of one strategy by measure. */
export type ByMeasure = Readonly<Record<ComparedMeasure, Float64Array>>;

/** Campaigns of each strategy at the scenario's values, on all the luck that the draws meet. */
export function* campaignsHere(
  { strategies, collectors, seed }: Compared,
  { draws, replications }: Size,
): Work<readonly ByMeasure[]> {
  const count = draws * replications;
  const here = strategies.map((strategy, i) =>
    collectors[i].count >= count ? collectors[i] : new Runs(strategy, seed),
  );
  yield* answered(here.flatMap((runs) => (runs instanceof Runs ? runs.errandsTo(count) : [])));
  return here.map(({ values }) => perCompared((measure) => values[measureOf(measure)].subarray(0, count)));
}

/**
 * The outer loop: draws these inputs, and runs all strategies on each draw, on the same luck as at the scenario's values.
 * A draw depends on its number alone. Every draw has luck of its own: shared by all draws, the luck of so few replications
 * would show in every draw alike, and could not be told from what the draws have in common.
 */
export class DrawnCampaigns {
  private readonly columns: readonly Columns[];
  /** Places of the strategies that the draws touch; one that sets all that is drawn itself is as it was. */
  private readonly touched: readonly number[];

  /** @param here campaigns at the scenario's values on the same luck */
  constructor(
    private readonly compared: Compared,
    private readonly inputs: readonly UnknownInput[],
    private readonly size: Size,
    private readonly here: readonly ByMeasure[],
  ) {
    const { loaded, seed } = compared;
    const { scenario } = withDraw(loaded, inputs, new LuckTable(seed).replication(1));
    this.touched = loaded.strategies.flatMap(({ settings }, place) =>
      scenario.strategies[place].settings === settings ? [] : [place],
    );
    this.columns = this.touched.map(() => new Columns());
  }

  /** What it takes to have them. */
  get errands(): readonly Errand[] {
    const { compared, touched, inputs, size } = this;
    const { loaded, seed } = compared;
    if (touched.length === 0) return [];
    const play = {
      kind: 'drawn' as const,
      scenario: loaded,
      inputs: inputs.map(({ path }) => path),
      perDraw: size.replications,
      parts: touched.map((place) => ({ name: loaded.strategies[place].name, over: {} })),
    };
    const names = [...COMPARED.map((measure) => measureOf(measure)), ...inputs.map(clippedColumn)];
    const take = (answer: Answer) => {
      answer.forEach(({ count, columns }, part) => {
        this.columns[part].append(count, Object.fromEntries(names.map((name) => [name, columns[name]])));
      });
    };
    return [{ order: { play, seed, from: 1, to: size.draws * size.replications, wants: {} }, take }];
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
    const column = this.columns.at(0)?.of(clippedColumn(input)) ?? [];
    return countOf(column, (isClipped) => isClipped === 1) / this.size.replications;
  }
}

function perCompared<Value>(of: (measure: ComparedMeasure) => Value): Record<ComparedMeasure, Value> {
  return {
    time: of('time'),
    operatorTime: of('operatorTime'),
    yield: of('yield'),
    silentBadShare: of('silentBadShare'),
    tips: of('tips'),
    cost: of('cost'),
  };
}
