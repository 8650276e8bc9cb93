import type { KnownCampaign } from './known.js';
import type { CampaignModel } from '../../campaign/model.js';
import type { Outcome } from '../../campaign/outcome.js';
import type { Recorder } from '../../campaign/recorder.js';
import { suppliesOf } from '../../campaign/supplies.js';
import type { Row } from '../columns.js';

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

/** Something at hand, all instruments together. */
interface Shelf {
  readonly what: string;
  readonly left: number;
  readonly restock: number | null;
}

export function shelvesOf(model: CampaignModel, known: KnownCampaign): readonly Shelf[] {
  return suppliesOf(model.settings)
    .filter(([what]) => isUsed(what, model))
    .map(([what, { atHand, restock }]) => ({
      what,
      left: known.instruments.reduce((sum, { left }) => sum + (left.find(([name]) => name === what)?.[1] ?? atHand), 0),
      restock: restock ?? null,
    }));
}

/** What one campaign took from each shelf, and whether it ended because there was no more, as columns. */
export function takenIn(model: CampaignModel, known: KnownCampaign, outcome: Outcome, reason: string | null): Row {
  return Object.fromEntries(
    shelvesOf(model, known).flatMap(({ what }) => [
      [`used ${what}`, usedOf(what, model, known, outcome)],
      [`ended ${what}`, reason === `no ${what} is left` ? 1 : 0],
    ]),
  );
}

/** Tips that were on or parked before were bought before. */
function usedOf(
  what: string,
  { kinds }: CampaignModel,
  known: KnownCampaign,
  { chips, specimens, tipRecords }: Outcome,
): number {
  if (what === 'chip') return chips;
  if (what === 'specimen') return specimens;
  const held = known.instruments
    .flatMap(({ tip, parked }) => [tip, ...parked])
    .filter((tip) => tip !== null && `${kinds[tip.kind].name} tip` === what);
  return tipRecords.filter(({ kind }) => `${kind} tip` === what).length - held.length;
}

/** Supplies that the workflow takes from. */
export function isUsed(what: string, { workflow }: CampaignModel): boolean {
  return (workflow === 'hop') === (what === 'chip' || what === 'specimen');
}
