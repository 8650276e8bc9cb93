import type { BreakEvenMeasure } from '../study/breakeven/results.js';
import type { Difference, Summary } from '../study/results.js';
import { timeScale } from './charts/chart.js';
import { moneyScale, PLAIN, SHARE, type Scale, workScale } from './format.js';
import { plainText } from './text.js';

/** Unit of a measure in a comparison. */
export function measureScale(measure: Difference['measure'], summary: Summary): Scale {
  switch (measure) {
    case 'time':
      return timeScale(summary);
    case 'operatorTime':
      return workScale(Math.max(...summary.strategies.map(({ measures }) => measures.operatorTime.value)));
    case 'yield':
    case 'silentBadShare':
    case 'withinAllocation':
    case 'finishes':
      return SHARE;
    case 'tips':
      return PLAIN;
    case 'cost':
      return moneyScale(summary.scenario.currency);
  }
}

/** Shares differ by points, since per cent of a share would mislead. */
const POINTS: Scale = { divisor: 0.01, unit: 'points' };

/** Unit of a difference. */
export function differenceScale(measure: Difference['measure'], summary: Summary): Scale {
  const scale = measureScale(measure, summary);
  return scale === SHARE ? POINTS : scale;
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
      return POINTS;
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
