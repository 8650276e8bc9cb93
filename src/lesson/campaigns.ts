import { LuckTable } from '../chance/luck.js';
import { Collector } from '../execution/collector.js';
import { replicate, type Runnable } from '../execution/replicate.js';
import { whatCounts } from '../execution/what-counts.js';

/** Settings of which the campaigns are kept; a slider passes many on its way. */
const MOST = 400;

/** Campaigns run so far under one seed, for each setting that the page asked about: what is alike is run once. */
export class Campaigns {
  private readonly table: LuckTable;
  private readonly known = new Map<string, Collector>();

  constructor(readonly seed: string) {
    this.table = new LuckTable(seed);
  }

  /** Runs a strategy on until there are at least so many replications. */
  upTo(strategy: Runnable, replications: number): Collector {
    const key = `${strategy.model.workflow} ${whatCounts(strategy)}`;
    const collector = this.known.get(key) ?? new Collector({ sums: true, timeParts: true });
    this.known.set(key, collector);
    if (this.known.size > MOST) this.known.delete(Array.from(this.known.keys())[0]);
    for (let replication = collector.count + 1; replication <= replications; replication += 1)
      collector.add(replicate(strategy, this.table, replication));
    return collector;
  }
}
