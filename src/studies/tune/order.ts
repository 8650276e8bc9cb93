import { splitQuantity } from '../../scenario/quantity.js';
import type { Setting } from '../../scenario/ranges.js';
import type { Varied } from '../../analysis/vary/varied.js';

/** The number of a setting, without its unit; null for one that is none. */
export function numberOf(setting: Setting): number | null {
  if (typeof setting === 'number') return setting;
  return typeof setting === 'string' ? (splitQuantity(setting)?.number ?? null) : null;
}

/** Whether neighbours in the order given are alike: the settings ascend, `none` aside. */
export function isAscending({ settings }: Pick<Varied, 'settings'>): boolean {
  const numbers = settings.filter((setting) => setting !== null).map(numberOf);
  return numbers.every((number, place) => {
    const before = place === 0 ? -Infinity : numbers[place - 1];
    return number !== null && before !== null && number > before;
  });
}
