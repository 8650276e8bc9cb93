import { campaignAt } from '../../campaign/campaign.js';
import type { KnownCampaign } from '../../execution/midway/known.js';
import type { CampaignModel } from '../../campaign/model.js';
import { observed } from '../../execution/midway/observed.js';
import { LuckTable } from '../../chance/luck.js';
import { suppliesOf } from '../../campaign/supplies.js';

/** A campaign of which nothing has been done yet. */
export function nothingDone(model: CampaignModel): KnownCampaign {
  const left = suppliesOf(model.settings).map(([what, { atHand }]) => [what, atHand] as const);
  return {
    now: model.start,
    grantedUntil: model.allocationEnd,
    images: model.images.map(() => ({ fate: 'not yet', takes: 0 })),
    instruments: Array.from({ length: model.settings.instruments }, () => ({
      standing: 'not begun',
      sample: null,
      lostSamples: [],
      region: null,
      tip: null,
      parked: [],
      sitesUsed: [],
      left,
    })),
  };
}

/** A simulated campaign as it would be known at a moment (microseconds); null where it is over by then. */
export function exampleAt(model: CampaignModel, seed: string, moment: number): KnownCampaign | null {
  const state = campaignAt(model, new LuckTable(seed).replication(1), moment);
  return state === null ? null : observed(model, state);
}
