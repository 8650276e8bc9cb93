import { estimateOfMeasure } from '../../analysis/estimate.js';
import type { Estimate } from '../../statistics/estimate.js';
import { Collector } from '../../execution/collector.js';
import { replicate, runnable } from '../../execution/replicate.js';
import { type Measure, perMeasure } from '../../execution/measures.js';
import type { Question, Scenarios } from '../task.js';

export interface NumbersAsked extends Question {
  /** At least 2. */
  readonly replications: number;
}

/** Means of every measure over the replications run so far, as `summary.json` of a comparison has them. */
export interface Numbers {
  readonly done: number;
  readonly of: number;
  readonly strategies: readonly { readonly name: string; readonly measures: Readonly<Record<Measure, Estimate>> }[];
}

const CHUNK = 50;

/** The same campaigns as `compare --replications`, with common random numbers. */
export async function* numbers(asked: NumbersAsked, scenarios: Scenarios): AsyncGenerator<Numbers> {
  const { loaded } = scenarios.with(asked);
  const table = scenarios.luck(asked);
  const all = runnable(loaded.strategies).map((strategy) => ({ strategy, collector: new Collector() }));
  for (let done = 0; done < asked.replications;) {
    const before = done;
    done = Math.min(asked.replications, done + CHUNK);
    for (const { strategy, collector } of all)
      for (let replication = before + 1; replication <= done; replication += 1)
        collector.add(replicate(strategy, table, replication));
    yield await Promise.resolve({
      done,
      of: asked.replications,
      strategies: all.map(({ strategy, collector: { values } }) => ({
        name: strategy.name,
        measures: perMeasure((measure) => estimateOfMeasure(measure, values[measure])),
      })),
    });
  }
}
