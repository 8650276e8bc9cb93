import type { PairMeasure } from '../analysis/compared-measures.js';
import type { Difference, Summary } from '../analysis/results.js';
import { timeScale } from './charts/chart.js';
import { moneyScale, PLAIN, SHARE, type Scale, workScale, POINTS } from '../wording/numbers.js';
import { plainText } from './text.js';

/** Unit of a measure in a comparison. */
export function measureScale(measure: Difference['measure'], summary: Summary): Scale {
  switch (measure) {
    case 'time':
      return timeScale(summary);
    case 'operatorTime':
      return workScale(Math.max(...summary.strategies.map(({ measures }) => measures.operatorTime.value)));
    case 'yield':
    case 'undetectedBadShare':
    case 'withinAllocation':
    case 'finishes':
      return SHARE;
    case 'tips':
      return PLAIN;
    case 'cost':
      return moneyScale(summary.scenario.currency);
  }
}

/** Unit of a difference. */
export function differenceScale(measure: Difference['measure'], summary: Summary): Scale {
  const scale = measureScale(measure, summary);
  return scale === SHARE ? POINTS : scale;
}

/** Scale in which a study of working time shows a measure; `largest` is the largest amount shown, differences included. */
export function scaleUpTo(measure: PairMeasure, largest: number, currency: string): Scale {
  switch (measure) {
    case 'time':
    case 'operatorTime':
      return workScale(largest);
    case 'cost':
      return moneyScale(currency);
    case 'yield':
      return POINTS;
  }
}

/** In what a measure stands in a CSV file. */
export function plainUnit(measure: PairMeasure, currency: string): string {
  switch (measure) {
    case 'time':
    case 'operatorTime':
      return 's';
    case 'cost':
      return plainText(currency);
    case 'yield':
      return 'share';
  }
}
