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

export interface Size {
  readonly draws: number;
  /** Replications of each draw: the first ones of the comparison, so that all draws meet the same luck. */
  readonly replications: number;
  /** So many campaigns have draw and replication of their own: number i those of number i. */
  readonly campaigns: number;
}

/** Values of one strategy by measure. */
export type ByMeasure<Value> = Readonly<Record<Weighed, Value>>;

/** Campaigns of all strategies, with what is not known drawn again and again. */
export interface DrawnCampaigns {
  /** By strategy: for each draw a row of its replications. */
  readonly rows: readonly ByMeasure<number[][]>[];
  /** By strategy: campaigns each with a draw of its own. */
  readonly single: readonly ByMeasure<number[]>[];
  /** How many draws of an input were brought back to what the schema allows, by its path. */
  readonly clipped: ReadonlyMap<string, number>;
}

/** The outer loop: draws these inputs, and runs all strategies on each draw. A draw depends on its number alone. */
export function drawCampaigns(
  compared: Compared,
  inputs: readonly UnknownInput[],
  { draws, replications, campaigns }: Size,
  onDraw: (done: number, of: number) => void,
): DrawnCampaigns {
  const rows = compared.strategies.map(() => perWeighed((): number[][] => []));
  const single = compared.strategies.map(() => perWeighed((): number[] => []));
  const clipped = new Map<string, number>();
  const last = Math.max(draws, campaigns);
  for (let draw = 1; draw <= last; draw += 1) {
    const drawn = withDraw(compared.loaded, inputs, compared.table.replication(draw));
    if (draw <= draws) for (const path of drawn.clipped) clipped.set(path, (clipped.get(path) ?? 0) + 1);
    for (const [i, strategy] of drawn.scenario.strategies.entries()) {
      // A strategy that sets what was drawn itself is as it was.
      const isTouched = strategy.settings !== compared.loaded.strategies[i].settings;
      const ready = isTouched ? runnable([strategy])[0] : compared.strategies[i];
      const many = isTouched
        ? new Runs(ready, compared.table).upTo(draw <= draws ? replications : 0)
        : compared.collectors[i];
      const one = draw <= campaigns && draw > many.count ? replicate(ready, compared.table, draw) : null;
      for (const measure of WEIGHED) {
        const name = measureOf(measure, compared.time);
        if (draw <= draws) rows[i][measure].push(many.values[name].slice(0, replications));
        if (draw <= campaigns) single[i][measure].push(one === null ? many.values[name][draw - 1] : one[name]);
      }
    }
    onDraw(draw, last);
  }
  return { rows, single, clipped };
}

function perWeighed<Value>(of: (measure: Weighed) => Value): Record<Weighed, Value> {
  return { time: of('time'), yield: of('yield'), tips: of('tips'), cost: of('cost') };
}
