import { readSheet, textAt } from '../../analysis/sheet.js';
import { suggestion } from '../../scenario/nearest.js';
import type { TextFault } from '../../scenario/places.js';
import { show } from '../../scenario/show.js';
import { RECORDED, type Recorded } from './results.js';

/** A campaign that is over. */
export interface Finished {
  readonly campaign: string;
  readonly strategy: string;
  /** Times in seconds, the yield between 0 and 1. */
  readonly found: Readonly<Partial<Record<Recorded, number>>>;
}

export type ReadFinished =
  | { readonly ok: true; readonly campaigns: readonly Finished[] }
  | { readonly ok: false; readonly faults: readonly TextFault[] };

const HEADS: Readonly<Record<Recorded, readonly string[]>> = {
  time: ['hours', 'instrument hours', 'time'],
  operatorTime: ['operator hours'],
  tips: ['tips', 'tips used'],
  attempts: ['attempts', 'scans'],
  yield: ['yield'],
};
export const WANTED =
  '`campaign,strategy,hours,operator hours,tips,attempts,yield` or some of them is wanted as the first line';

/**
 * Reads a row a campaign; everything that is wrong is said at once, with its place.
 * @param strategies names, of which the first is meant where none is given
 */
export function readFinished(text: string, strategies: readonly string[]): ReadFinished {
  const read = readSheet(text);
  if (!read.ok) return read;
  const { head, rows } = read.sheet;
  const heads = head.cells.map((cell) => cell.text.toLowerCase().replace(/\s*[[(].*$/u, ''));
  const columnOf = (names: readonly string[]) => {
    const place = heads.findIndex((each) => names.includes(each));
    return place < 0 ? null : place;
  };
  const columns = RECORDED.map((measure) => [measure, columnOf(HEADS[measure])] as const);
  if (columns.every(([, column]) => column === null))
    return { ok: false, faults: [{ ...head.place, message: `no column tells what a campaign came to; ${WANTED}` }] };
  const [names, followed] = [columnOf(['campaign', 'name']), columnOf(['strategy'])];
  const faults: TextFault[] = [];
  const campaigns = rows.map(({ place, cells }, number): Finished => {
    const strategy = textAt(cells, followed);
    if (strategy !== '' && !strategies.includes(strategy))
      faults.push({ ...place, message: `no strategy is called ${show(strategy)}${suggestion(strategy, strategies)}` });
    const found = columns.flatMap(([measure, column]): readonly (readonly [Recorded, number])[] => {
      const written = textAt(cells, column);
      if (written === '') return [];
      const value = valueOf(measure, written);
      if (value !== null) return [[measure, value]];
      faults.push({
        ...(cells.at(column ?? 0)?.place ?? place),
        message: `read ${show(written)}; ${measure === 'yield' ? 'a share such as 0.93 or 93 %' : 'a number'} is wanted`,
      });
      return [];
    });
    if (columns.every(([, column]) => textAt(cells, column) === ''))
      faults.push({ ...place, message: 'this row does not tell what the campaign came to' });
    return {
      campaign: textAt(cells, names) || `campaign ${number + 1}`,
      strategy: strategy || strategies[0],
      found: Object.fromEntries(found),
    };
  });
  if (campaigns.length === 0) faults.push({ ...head.place, message: 'no campaign stands here; a row each is wanted' });
  return faults.length > 0 ? { ok: false, faults } : { ok: true, campaigns };
}

function valueOf(measure: Recorded, written: string): number | null {
  const match = /^(\d+(?:[.,]\d+)?)\s*(%?)$/u.exec(written);
  if (match === null) return null;
  const [, digits, percent] = match;
  if (percent !== '' && measure !== 'yield') return null;
  const number = Number(digits.replace(',', '.'));
  if (measure === 'time' || measure === 'operatorTime') return number * 3600;
  if (measure !== 'yield') return number;
  const share = percent === '' ? number : number / 100;
  return share <= 1 ? share : null;
}
