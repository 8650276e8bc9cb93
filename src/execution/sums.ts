import { ACTIVITIES } from '../campaign/activities.js';
import type { WentBecause } from '../campaign/ledger.js';
import type { Outcome } from '../campaign/outcome.js';
import { SECOND } from '../kernel/clock.js';
import type { SpoiledBy } from '../probe/tip.js';
import { IMAGE_SUMS, type ImageSum, perImageSum, type SumsOfBatch } from './batch.js';

/** Quality is summed in units of this, so that a sum of two million is a whole number that a double holds. */
const QUALITY_UNITS = 0x1_0000_0000;
/** Microseconds are summed in two parts, as their sum may pass 2^53. */
const PART = 0x4000_0000;

/** Sums over replications of one strategy, exact, so that they are the same in whichever order replications come. */
export class Sums {
  private readonly images: Record<ImageSum, Float64Array> = perImageSum(() => new Float64Array(0));
  private readonly high = new Float64Array(ACTIVITIES.length);
  private readonly low = new Float64Array(ACTIVITIES.length);
  readonly spoiledBy = new Map<SpoiledBy | 'unspoiled', number>();
  readonly wentBecause = new Map<WentBecause, number>();

  add(outcome: Outcome): void {
    this.makeRoom(outcome.images.length);
    const { images } = this;
    const { quality, driftQuality, takes, good, undetectedBad, givenUp, missing } = images;
    // By place and by name, as a campaign has many images.
    for (let image = 0; image < outcome.images.length; image += 1) {
      const { kept, fate } = outcome.images[image];
      takes[image] += outcome.takesOf[image];
      if (kept === null) (fate === 'given up' ? givenUp : missing)[image] += 1;
      else {
        quality[image] += inUnits(kept.quality);
        driftQuality[image] += inUnits(kept.drift.quality);
        (kept.good ? good : undetectedBad)[image] += 1;
      }
    }
    outcome.badScans?.forEach(({ byDrift, otherwise }, image) => {
      images.badByDrift[image] += byDrift;
      images.badOtherwise[image] += otherwise;
    });
    const { high, low } = this;
    for (const row of outcome.split) {
      for (let activity = 0; activity < row.length; activity += 1) {
        const whole = Math.floor(row[activity] / PART);
        high[activity] += whole;
        low[activity] += row[activity] - whole * PART;
      }
    }
    for (const { spoiled, went } of outcome.tipRecords) {
      increase(this.spoiledBy, spoiled?.cause ?? 'unspoiled', 1);
      increase(this.wentBecause, went, 1);
    }
  }

  append({ images, split, spoiledBy, wentBecause }: SumsOfBatch): void {
    this.makeRoom(images.quality.length);
    for (const sum of IMAGE_SUMS) addTo(this.images[sum], images[sum]);
    addTo(this.high, split.high);
    addTo(this.low, split.low);
    for (const [cause, tips] of spoiledBy) increase(this.spoiledBy, cause, tips);
    for (const [reason, tips] of wentBecause) increase(this.wentBecause, reason, tips);
  }

  copy(): SumsOfBatch {
    return {
      images: perImageSum((sum) => this.images[sum].slice()),
      split: { high: this.high.slice(), low: this.low.slice() },
      spoiledBy: new Map(this.spoiledBy),
      wentBecause: new Map(this.wentBecause),
    };
  }

  /** What became of an image, by its number in the plan, summed over replications; quality as such. */
  image(number: number): Readonly<Record<ImageSum, number>> {
    const { images } = this;
    return {
      ...perImageSum((sum) => images[sum][number]),
      quality: images.quality[number] / QUALITY_UNITS,
      driftQuality: images.driftQuality[number] / QUALITY_UNITS,
    };
  }

  /** Seconds that went to an activity, by its place in ACTIVITIES. */
  seconds(activity: number): number {
    return (this.high[activity] * PART + this.low[activity]) / SECOND;
  }

  private makeRoom(images: number): void {
    for (const sum of IMAGE_SUMS) {
      if (this.images[sum].length >= images) continue;
      const longer = new Float64Array(images);
      longer.set(this.images[sum]);
      this.images[sum] = longer;
    }
  }
}

function inUnits(quality: number): number {
  return Math.floor(quality * QUALITY_UNITS + 0.5);
}

function addTo(sums: Float64Array, more: Float64Array): void {
  for (let i = 0; i < more.length; i += 1) sums[i] += more[i];
}

function increase<Key>(counts: Map<Key, number>, key: Key, by: number): void {
  counts.set(key, (counts.get(key) ?? 0) + by);
}
