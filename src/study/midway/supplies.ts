import type { KnownCampaign } from '../../campaign/known.js';
import type { CampaignModel } from '../../campaign/model.js';
import type { Outcome } from '../../campaign/outcome.js';
import type { Recorder } from '../../campaign/recorder.js';
import { suppliesOf } from '../../campaign/stores.js';
import { quantileOf } from '../../statistics/quantile.js';
import { chanceOf, estimateOf } from '../estimate.js';
import type { SupplyOutlook } from './results.js';
import { isUsed } from './state-rows.js';

/** Hears why a campaign ended before it was through. */
export class Ending implements Recorder {
  reason: string | null = null;

  step(): void {
    // Only the end is of interest.
  }

  event(_time: number, _instrument: number, what: string, detail: string): void {
    if (what === 'the experiment ends') this.reason = detail;
  }

  tip(): void {
    // Only the end is of interest.
  }
}

interface Shelf {
  readonly what: string;
  readonly left: number;
  readonly restock: number | null;
  readonly used: number[];
  ended: number;
}

/** What is taken from each shelf in replication after replication; all instruments together. */
export class Supplies {
  private readonly shelves: readonly Shelf[];

  constructor(
    private readonly model: CampaignModel,
    private readonly known: KnownCampaign,
  ) {
    this.shelves = suppliesOf(model.settings.stock)
      .filter(([what]) => isUsed(what, model))
      .map(([what, { atHand, restock }]) => ({
        what,
        left: known.instruments.reduce(
          (sum, { left }) => sum + (left.find(([name]) => name === what)?.[1] ?? atHand),
          0,
        ),
        restock: restock ?? null,
        used: [],
        ended: 0,
      }));
  }

  add(outcome: Outcome, reason: string | null): void {
    for (const shelf of this.shelves) {
      shelf.used.push(this.usedOf(shelf.what, outcome));
      if (reason === `no ${shelf.what} is left`) shelf.ended += 1;
    }
  }

  outlooks(): readonly SupplyOutlook[] {
    return this.shelves.map(({ what, left, restock, used, ended }) => ({
      what,
      left,
      restock,
      used: estimateOf(used),
      usedAtMost: Math.ceil(
        quantileOf(
          [...used].sort((a, b) => a - b),
          0.9,
        ),
      ),
      usedUp: chanceOf(left === 0 ? ended : used.filter((count) => count >= left).length, used.length),
      ends: chanceOf(ended, used.length),
    }));
  }

  /** Tips that were on or parked before were bought before. */
  private usedOf(what: string, { chips, specimens, tipRecords }: Outcome): number {
    if (what === 'chip') return chips;
    if (what === 'specimen') return specimens;
    const held = this.known.instruments
      .flatMap(({ tip, parked }) => [tip, ...parked])
      .filter((tip) => tip !== null && `${this.model.kinds[tip.kind].name} tip` === what);
    return tipRecords.filter(({ kind }) => `${kind} tip` === what).length - held.length;
  }
}
