import type { StudyRecord } from '../study/about.js';
import { moneyScale, type Scale, workScale } from './format.js';

/** Scale of a measure that strategies are compared by; `largest` is the largest amount shown, differences included. */
export function measureScale(
  measure: 'time' | 'cost' | 'yield' | 'silentBadShare',
  largest: number,
  currency: string,
): Scale {
  switch (measure) {
    case 'time':
      return workScale(largest);
    case 'cost':
      return moneyScale(currency);
    case 'yield':
    case 'silentBadShare':
      return { divisor: 0.01, unit: 'points' };
  }
}

/** What every study says of how it was made, last in its list of facts. */
export function recordFacts({ scenario, tool, seed }: StudyRecord<string>): readonly (readonly [string, string])[] {
  return [
    ['Seed', seed],
    ['Scenario file', `${scenario.file}, SHA-256 ${scenario.sha256}`],
    ['Made by', `${tool.name} ${tool.version}`],
  ];
}
