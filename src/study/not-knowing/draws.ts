import type { LuckTable } from '../../chance/luck.js';
import type { LoadedScenario } from '../../scenario/load.js';
import { withDraw } from '../../scenario/uncertainty-draw.js';
import type { UnknownInput } from '../../scenario/unknown-input.js';
import type { Collector } from '../collector.js';
import { measureOf, type TimeMeasure } from '../differences.js';
import { replicate, type Runnable, runnable } from '../replicate.js';
import { Runs } from '../runs.js';
import { WEIGHED, type Weighed } from './results.js';

/** What was compared at the scenario's values, on which luck. */
export interface Compared {
  readonly loaded: LoadedScenario;
  readonly strategies: readonly Runnable[];
  readonly table: LuckTable;
  readonly collectors: readonly Collector[];
  readonly time: TimeMeasure;
}

/** Number of draws, and of replications of each: draw 1 has the first ones, draw 2 the next, and so on. */
export interface Size {
  readonly draws: number;
  readonly replications: number;
}

/** Values of one strategy by measure. */
type ByMeasure<Value> = Readonly<Record<Weighed, Value>>;

/** Campaigns of each strategy at the scenario's values, on all the luck that the draws meet. */
export function campaignsHere(
  { strategies, collectors, table, time }: Compared,
  { draws, replications }: Size,
): readonly ByMeasure<readonly number[]>[] {
  const count = draws * replications;
  return strategies.map((strategy, i) => {
    const { values } = collectors[i].count >= count ? collectors[i] : new Runs(strategy, table).upTo(count);
    return perWeighed((measure) => values[measureOf(measure, time)].slice(0, count));
  });
}

/** Campaigns of all strategies, with what is not known drawn again and again. */
export interface DrawnCampaigns {
  /** By strategy: the replications of all draws, draw by draw. */
  readonly values: readonly ByMeasure<readonly number[]>[];
  /** How many draws of an input were brought back to what the schema allows, by its path. */
  readonly clipped: ReadonlyMap<string, number>;
}

/**
 * The outer loop: draws these inputs, and runs all strategies on each draw, on the same luck as at the scenario's values.
 * A draw depends on its number alone. Every draw has luck of its own: shared by all draws, the luck of so few replications
 * would show in every draw alike, and could not be told from what the draws have in common.
 * @param here campaigns at the scenario's values on that luck
 */
export function drawCampaigns(
  { loaded, table, time }: Compared,
  inputs: readonly UnknownInput[],
  { draws, replications }: Size,
  here: readonly ByMeasure<readonly number[]>[],
  onDraw: (done: number) => void,
): DrawnCampaigns {
  const values = here.map(() => perWeighed((): number[] => []));
  const clipped = new Map<string, number>();
  for (let draw = 1; draw <= draws; draw += 1) {
    const drawn = withDraw(loaded, inputs, table.replication(draw));
    for (const path of drawn.clipped) clipped.set(path, (clipped.get(path) ?? 0) + 1);
    const before = (draw - 1) * replications;
    for (const [i, strategy] of drawn.scenario.strategies.entries()) {
      // A strategy that sets all that was drawn itself is as it was.
      const isTouched = strategy.settings !== loaded.strategies[i].settings;
      const [ready] = isTouched ? runnable([strategy]) : [null];
      for (let index = before; index < before + replications; index += 1) {
        const outcome = ready === null ? null : replicate(ready, table, index + 1);
        for (const measure of WEIGHED)
          values[i][measure].push(outcome === null ? here[i][measure][index] : outcome[measureOf(measure, time)]);
      }
    }
    onDraw(draw);
  }
  return { values, clipped };
}

function perWeighed<Value>(of: (measure: Weighed) => Value): Record<Weighed, Value> {
  return { time: of('time'), yield: of('yield'), tips: of('tips'), cost: of('cost') };
}
