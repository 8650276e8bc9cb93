import { type Numbers, total } from '../statistics/numbers.js';
import { linearisedRatio } from '../statistics/ratio.js';
import type { Campaigns } from '../execution/collector.js';

/** Numbers whose mean is the instrument time for each good image, over campaigns; null where none was ever kept. */
export function timePerGood({ values }: Pick<Campaigns, 'values'>): Numbers | null {
  return total(values.good) === 0 ? null : linearisedRatio(values.instrumentTime, values.good);
}
