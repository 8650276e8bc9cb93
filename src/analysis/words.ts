import type { Estimate } from '../statistics/estimate.js';
import {
  type EstimateText,
  estimateText,
  moneyScale,
  PERCENTAGE_POINTS,
  plainSpaces,
  type Scale,
  spanText,
  timeEstimate,
  workScale,
} from '../wording/numbers.js';
import type { Difference } from './results.js';

/** Why a campaign may never be finished. */
export const WHY_UNFINISHED =
  'supplies run out, no booking suffices, or tips or specimens are lost one after the other';

/** In what a sentence says a difference, or an amount, of what is no time. */
function unitOf(measure: Exclude<Difference['measure'], TimeMeasure>, currency: string): Scale {
  switch (measure) {
    case 'yield':
    case 'undetectedBadShare':
    case 'withinAllocation':
    case 'finishes':
      return PERCENTAGE_POINTS;
    case 'tips':
      return { divisor: 1, unit: 'tips' };
    case 'cost':
      return moneyScale(currency);
  }
}

type TimeMeasure = 'time' | 'operatorTime';

function isTime(measure: Difference['measure']): measure is TimeMeasure {
  return measure === 'time' || measure === 'operatorTime';
}

/** Size of a difference with its interval, such as `1.2 h (0.8 to 1.6)`. */
export function sizeText(measure: Difference['measure'], estimate: Estimate, currency: string): string {
  const { value, interval } = sizeOf(measure, estimate, currency);
  return interval === '' ? value : `${value} (${interval})`;
}

/** Size of a difference without its sign, and its interval. */
export function sizeOf(measure: Difference['measure'], estimate: Estimate, currency: string): EstimateText {
  const { value, low, high } = estimate;
  const size = value < 0 ? { value: -value, low: -high, high: -low } : estimate;
  const text = isTime(measure) ? timeEstimate(size) : estimateText(size, unitOf(measure, currency), 'size');
  const said = plainSpaces(text.value).replace(/^1 (percentage point|tip)s$/u, '1 $1');
  return { value: said, interval: plainSpaces(text.interval) };
}

/** A span such as `−30 to +20 min`; without signs where it is of no difference. */
export function signedSpan(
  measure: Difference['measure'],
  span: Pick<Estimate, 'low' | 'high'>,
  currency: string,
  as: 'amount' | 'difference' = 'difference',
): string {
  const most = Math.max(Math.abs(span.low), Math.abs(span.high));
  return plainSpaces(spanText(span, isTime(measure) ? workScale(most) : unitOf(measure, currency), as));
}

export const OPERATOR_TIME = 'operator time';

export const INSTRUMENT_TIME = 'instrument time';

export const TIME_PER_GOOD = 'instrument time per good image';

/** What a compared measure is called. */
export function measureName(measure: Difference['measure']): string {
  switch (measure) {
    case 'time':
      return INSTRUMENT_TIME;
    case 'operatorTime':
      return OPERATOR_TIME;
    case 'undetectedBadShare':
      return 'undetected bad share';
    case 'withinAllocation':
      return 'completion in granted time';
    case 'finishes':
      return 'completion';
    case 'yield':
    case 'tips':
    case 'cost':
      return measure;
  }
}
