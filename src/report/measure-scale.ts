import type { BreakEvenMeasure } from '../study/breakeven/results.js';
import type { Weighed } from '../study/not-knowing/results.js';
import type { Summary } from '../study/results.js';
import { timeScale } from './charts/chart.js';
import { moneyScale, PLAIN, SHARE, type Scale, workScale } from './format.js';
import { plainText } from './text.js';

/** Unit of a measure in a comparison. */
export function measureScale(measure: Weighed, summary: Summary): Scale {
  switch (measure) {
    case 'time':
      return timeScale(summary);
    case 'yield':
      return SHARE;
    case 'tips':
      return PLAIN;
    case 'cost':
      return moneyScale(summary.scenario.currency);
  }
}

/** Unit of a difference: shares differ by points, since per cent of a share would mislead. */
export function differenceScale(measure: Weighed, summary: Summary): Scale {
  return measure === 'yield' ? { divisor: 0.01, unit: 'points' } : measureScale(measure, summary);
}

/** Scale in which a study of working time shows a measure; `largest` is the largest amount shown, differences included. */
export function scaleUpTo(measure: BreakEvenMeasure, largest: number, currency: string): Scale {
  switch (measure) {
    case 'time':
    case 'operatorTime':
      return workScale(largest);
    case 'cost':
      return moneyScale(currency);
    case 'yield':
      return { divisor: 0.01, unit: 'points' };
  }
}

/** In what a measure stands in a CSV file. */
export function plainUnit(measure: BreakEvenMeasure, currency: string): string {
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
