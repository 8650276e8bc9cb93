import type { Collector } from '../../execution/collector.js';
import { perMeasure } from '../../execution/measures.js';
import type { ReplicationRow } from '../../analysis/results.js';

/** Every replication of every strategy, row by row: rows are made as they are read, as there may be a million. */
export class ReplicationTable implements Iterable<ReplicationRow> {
  constructor(
    private readonly names: readonly string[],
    private readonly collectors: readonly Collector[],
  ) {}

  *[Symbol.iterator](): Iterator<ReplicationRow> {
    const columns = this.collectors.map(({ values, finishedAt }) => ({ values, finishedAt }));
    for (let index = 0; index < this.collectors[0].count; index += 1) {
      for (const [i, { values, finishedAt }] of columns.entries()) {
        const end = finishedAt[index];
        yield {
          replication: index + 1,
          strategy: this.names[i],
          measures: perMeasure((measure) => values[measure][index]),
          finished: !Number.isNaN(end),
          finishedAt: Number.isNaN(end) ? null : end,
        };
      }
    }
  }
}
