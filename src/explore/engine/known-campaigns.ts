import type { Batch } from '../../execution/batch.js';
import { Collector } from '../../execution/collector.js';
import type { Job } from '../../execution/job.js';
import { runnable } from '../../execution/replicate.js';
import { whatCounts } from '../../execution/what-counts.js';
import type { Strategy } from '../../scenario/load.js';

/** Strategies of which the campaigns are kept: a slider passes many settings on its way. */
const MOST = 24;

/** Campaigns of one strategy, as far as they have been run. */
interface Known {
  /** Consecutive, from the first replication on. */
  readonly batches: { readonly to: number; readonly batch: Batch }[];
}

/** What has been run: a strategy that a change leaves alone is not run again. */
export class KnownCampaigns {
  private readonly known = new Map<string, Known>();

  /** A run of replications that was kept as such; null where it was not. */
  find(strategy: Strategy, { seed, wants, from, to }: Job): Batch | null {
    const { batches } = this.of(strategy, seed, wants);
    const place = batches.findIndex((each) => each.to === to);
    const begin = place > 0 ? batches[place - 1].to : 0;
    return place >= 0 && begin === from - 1 ? batches[place].batch : null;
  }

  /** Keeps a run that follows upon those kept before; any other is let go. */
  keep(strategy: Strategy, { seed, wants, from, to }: Job, batch: Batch): void {
    const { batches } = this.of(strategy, seed, wants);
    if ((batches.at(-1)?.to ?? 0) === from - 1) batches.push({ to, batch });
  }

  /** All that is kept of a strategy. */
  collected(strategy: Strategy, { seed, wants }: Pick<Job, 'seed' | 'wants'>): Collector {
    const collector = new Collector(wants);
    for (const { batch } of this.of(strategy, seed, wants).batches) collector.append(batch);
    return collector;
  }

  private of(strategy: Strategy, seed: string, wants: Job['wants']): Known {
    const [ready] = runnable([strategy]);
    const key = JSON.stringify([seed, wants, strategy.workflow, whatCounts(ready)]);
    const found = this.known.get(key) ?? { batches: [] };
    // The one asked for last is the last to be let go.
    this.known.delete(key);
    this.known.set(key, found);
    if (this.known.size > MOST) this.known.delete(Array.from(this.known.keys())[0]);
    return found;
  }
}
