import type { Outcome } from '../../src/campaign/outcome.js';
import type { TipRecord } from '../../src/campaign/ledger.js';
import { runMany } from './run.js';
import { type Plain, plainModel } from './scene.js';

export interface Lives extends Omit<Plain, 'regions' | 'stock'> {
  readonly seed: string;
  readonly replications: number;
  /** Tips at hand in each replication. */
  readonly tipsAtHand: number;
  /** More images than that many tips can take, but once in far more than a million runs. */
  readonly images: number;
}

/**
 * Uses up a stock of tips in each replication. The plan is longer than the tips can last, and the experiment ends when the
 * last of them goes: every tip has had its whole life, so that the lives are independent and identically distributed, with
 * no bias by the end of the plan.
 */
export function useUpTips({ seed, replications, tipsAtHand, images, ...plain }: Lives): readonly Outcome[] {
  const model = plainModel({ ...plain, regions: images, stock: { tips: { tip: tipsAtHand } } });
  const outcomes = runMany(model, seed, replications);
  for (const { isFinished, tipRecords } of outcomes)
    if (isFinished || tipRecords.length !== tipsAtHand) throw new Error('The plan was through before the tips were.');
  return outcomes;
}

/** The per-tip table of all replications. */
export function tipLives(lives: Lives): readonly TipRecord[] {
  return useUpTips(lives).flatMap(({ tipRecords }) => tipRecords);
}

/** Use until the first thing that spoiled a tip, and what that was. */
export function spoilingOf(tip: TipRecord) {
  if (tip.spoiled === null) throw new Error(`Tip ${tip.number} went sound.`);
  return tip.spoiled;
}
