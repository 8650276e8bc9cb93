import type { KnownCampaign } from '../../execution/midway/known.js';
import type { CampaignModel } from '../../campaign/model.js';
import { countOf, total } from '../../statistics/numbers.js';
import { OrderStatistics } from '../../statistics/order-statistics.js';
import { quantileOf } from '../../statistics/quantile.js';
import type { Collector } from '../../execution/collector.js';
import { chanceOf, estimateOf } from '../../analysis/estimate.js';
import { shelvesOf } from '../../execution/midway/supplies.js';
import type { SupplyOutlook } from './results.js';

/** How long everything at hand lasts, over campaigns with the columns of `takenIn`. */
export function outlooksOf(model: CampaignModel, known: KnownCampaign, campaigns: Collector): readonly SupplyOutlook[] {
  return shelvesOf(model, known).map(({ what, left, restock }) => {
    const used = campaigns.column(`used ${what}`);
    const ended = total(campaigns.column(`ended ${what}`));
    return {
      what,
      left,
      restock,
      used: estimateOf(used),
      usedAtMost: Math.ceil(quantileOf(new OrderStatistics(used), 0.9)),
      usedUp: chanceOf(left === 0 ? ended : countOf(used, (count) => count >= left), used.length),
      ends: chanceOf(ended, used.length),
    };
  });
}
