import { ACTIVITIES } from '../campaign/activities.js';
import type { WentBecause } from '../campaign/ledger.js';
import { SECOND } from '../kernel/clock.js';
import type { Outcome } from '../campaign/outcome.js';
import type { SpoiledBy } from '../probe/tip.js';
import { MEASURES, perMeasure, type ReplicationRow } from './results.js';

/** Sums over replications of what became of one image. */
export interface ImageSums {
  quality: number;
  good: number;
  silentBad: number;
  givenUp: number;
  missing: number;
  takes: number;
}

type CutMeasure = 'yield' | 'silentBadShare' | 'missing' | 'tips';

/** All replications of one strategy, measure by measure. Memory grows with measures × replications and with images, not with their product. */
export class Collector {
  readonly values = perMeasure((): number[] => []);
  /** Seconds from the start at which each replication was finished; null where it was not. */
  readonly finishedAt: (number | null)[] = [];
  readonly finishedInAllocation: boolean[] = [];
  readonly cut: Readonly<Record<CutMeasure, number[]>> = { yield: [], silentBadShare: [], missing: [], tips: [] };
  /** Sum of seconds by activity, in the order of ACTIVITIES. */
  readonly split: number[] = ACTIVITIES.map(() => 0);
  readonly images: ImageSums[] = [];
  readonly spoiledBy = new Map<SpoiledBy | 'unspoiled', number>();
  readonly wentBecause = new Map<WentBecause, number>();

  get count(): number {
    return this.finishedAt.length;
  }

  add(outcome: Outcome): void {
    for (const measure of MEASURES) this.values[measure].push(outcome[measure]);
    this.finishedAt.push(outcome.isFinished ? outcome.confirmedAt : null);
    if (outcome.cut !== null) {
      this.finishedInAllocation.push(outcome.cut.isFinished);
      for (const measure of ['yield', 'silentBadShare', 'missing', 'tips'] as const)
        this.cut[measure].push(outcome.cut[measure]);
    }
    for (const row of outcome.split) row.forEach((time, activity) => (this.split[activity] += time / SECOND));
    this.addImages(outcome);
    for (const { spoiled, went } of outcome.tipRecords) {
      count(this.spoiledBy, spoiled?.cause ?? 'unspoiled');
      count(this.wentBecause, went);
    }
  }

  /** One row of `replications.csv`; `index` from 0. */
  row(strategy: string, index: number): ReplicationRow {
    return {
      replication: index + 1,
      strategy,
      measures: perMeasure((measure) => this.values[measure][index]),
      finished: this.finishedAt[index] !== null,
      finishedAt: this.finishedAt[index],
    };
  }

  private addImages(outcome: Outcome): void {
    outcome.images.forEach(({ kept, fate }, index) => {
      const sums = (this.images[index] ??= { quality: 0, good: 0, silentBad: 0, givenUp: 0, missing: 0, takes: 0 });
      sums.quality += kept?.quality ?? 0;
      sums.takes += outcome.takesOf[index];
      sums[FATE_FIELDS[fate]] += 1;
    });
  }
}

const FATE_FIELDS = { good: 'good', 'silent bad': 'silentBad', 'given up': 'givenUp', missing: 'missing' } as const;

function count<Key>(counts: Map<Key, number>, key: Key): void {
  counts.set(key, (counts.get(key) ?? 0) + 1);
}
