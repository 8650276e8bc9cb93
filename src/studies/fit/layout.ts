import type { TextFault } from '../../scenario/places.js';
import { show } from '../../scenario/show.js';
import type { Sheet, SheetRow } from '../../analysis/sheet.js';
import { type Measure, unitFactor } from './amounts.js';
import { headOf } from './heads.js';

/** A table found on a sheet, with what stands around it. */
export interface Layout extends Sheet {
  /** Rows that sum up others. */
  readonly totals: readonly SheetRow[];
}

export type ReadLayout =
  { readonly ok: true; readonly layout: Layout } | { readonly ok: false; readonly faults: readonly TextFault[] };

/** Titles and notes above the heads are at most so many rows. */
const MOST_ABOVE = 20;

/** So many known heads make a row one of heads. */
const ENOUGH = 2;

const MEASURES: readonly Measure[] = ['image', 'distance', 'hour', 'approach', 'load', 'radius'];

/** First words of a row that sums up those above, in the languages of most keyboards. Common usage, no source. */
const TOTALS =
  /^(?:grand )?(?:(?:sub[- ]?)?totals?|zwischensumme|sum|sums|mean|average|avg|median|count|summe|gesamt|mittelwert|durchschnitt|anzahl|somme|moyenne|suma|media|totale|somma|celkem|razem|итого|всего|среднее|合计|总计|平均|合計)\b[:.]?/iu;

/**
 * Finds the table on a sheet: titles above the heads are passed over, heads in two rows and units in a row of their own are put
 * together, sums are set apart: those that say so, and at the foot those that come to the sum of what is above. A second table below is
 * refused, as nobody knows which is meant.
 * @param isKnown whether a head says what its column holds
 */
export function layOut({ head: first, rows }: Sheet, isKnown: (head: string) => boolean): ReadLayout {
  const all = [first, ...rows];
  const known = ({ cells }: SheetRow) => cells.filter(({ text }) => text !== '' && isKnown(text)).length;
  const at = headStart(all, isKnown, known);
  const { head, count } = headsAt(all, at, isKnown, known);
  const below = all.slice(at + count);
  const again = below.find((row) => !hasNumber(row) && known(row) >= Math.max(ENOUGH, known(head) / 2));
  if (again !== undefined)
    return {
      ok: false,
      faults: [{ ...again.place, message: 'another table begins here; put each on a sheet, or in a file, of its own' }],
    };
  const foot = footOf(below);
  const isTotal = (row: SheetRow, place: number) => place >= foot || isSubtotal(row);
  return {
    ok: true,
    layout: {
      head,
      rows: below.filter((row, place) => !isTotal(row, place)),
      totals: below.filter(isTotal),
    },
  };
}

/**
 * Where the heads begin: in the row with the most that are known, alone or, where that gives more than either, with the one below; where
 * hardly any is known, in the first row of several cells, as a title has one.
 */
function headStart(
  all: readonly SheetRow[],
  isKnown: (head: string) => boolean,
  known: (row: SheetRow) => number,
): number {
  const counts = all.slice(0, MOST_ABOVE).map((row, i) => {
    const next = all.at(i + 1);
    const both = next === undefined || hasNumber(next) ? 0 : known(together(row, next, isKnown));
    return both > Math.max(known(row), next === undefined ? 0 : known(next)) ? both : known(row);
  });
  const most = Math.max(...counts);
  if (most >= ENOUGH) return counts.indexOf(most);
  return Math.max(
    0,
    all.findIndex(({ cells }) => cells.filter(({ text }) => text !== '').length > 1),
  );
}

function headsAt(
  all: readonly SheetRow[],
  at: number,
  isKnown: (head: string) => boolean,
  known: (row: SheetRow) => number,
): { readonly head: SheetRow; readonly count: number } {
  const [head, next, after] = [all[at], all.at(at + 1), all.at(at + 2)];
  if (next === undefined || hasNumber(next)) return { head, count: 1 };
  if (isOfUnits(next)) return { head: withUnits(head, next), count: 2 };
  const both = together(head, next, isKnown);
  if (known(both) <= known(head)) return { head, count: 1 };
  if (after !== undefined && isOfUnits(after)) return { head: withUnits(both, after), count: 3 };
  return { head: both, count: 2 };
}

/** Heads of two rows: one of a group stands over the first of its columns. */
function together(upper: SheetRow, lower: SheetRow, isKnown: (head: string) => boolean): SheetRow {
  let group = '';
  const width = Math.max(upper.cells.length, lower.cells.length);
  const cells = Array.from({ length: width }, (_, i) => {
    const [above, below] = [upper.cells.at(i)?.text ?? '', lower.cells.at(i)?.text ?? ''];
    group = above === '' ? group : above;
    const place = lower.cells.at(i)?.place ?? upper.cells.at(i)?.place ?? upper.place;
    if (below === '') return { text: above, place };
    const joined = `${group} ${below}`.trim();
    return { text: isKnown(joined) || !isKnown(below) ? joined : below, place };
  });
  return { place: upper.place, cells };
}

function hasNumber({ cells }: SheetRow): boolean {
  return cells.some(({ text }) => /^[+-]?\d/u.test(text));
}

function bareUnit(text: string): string {
  return text.replace(/^[[(]\s*|\s*[\])]$/gu, '');
}

function isOfUnits({ cells }: SheetRow): boolean {
  const texts = cells.flatMap(({ text }) => (text === '' || /^[-–—]$/u.test(text) ? [] : [bareUnit(text)]));
  return texts.length > 0 && texts.every((unit) => MEASURES.some((measure) => unitFactor(measure, unit).ok));
}

function withUnits(head: SheetRow, units: SheetRow): SheetRow {
  const cells = head.cells.map((cell, i) => {
    const unit = bareUnit(units.cells.at(i)?.text ?? '');
    const isWanted = unit !== '' && !/^[-–—]$/u.test(unit) && headOf(cell.text).unit === null;
    return isWanted ? { ...cell, text: `${cell.text} [${unit}]` } : cell;
  });
  return { ...head, cells };
}

/** Where the sums at the foot begin: rows that say so, or whose number is the sum of all above it. */
function footOf(rows: readonly SheetRow[]): number {
  let foot = rows.length;
  while (foot > 0 && (saysTotal(rows[foot - 1]) || isSum(rows[foot - 1], rows.slice(0, foot - 1)))) foot -= 1;
  return foot;
}

/** The name of a tip can begin with such a word, as in `sum-3`: it has a number then. */
function saysTotal(row: SheetRow): boolean {
  const label = labelOf(row);
  return TOTALS.test(label) && !/\d/u.test(label);
}

/** Between rows such a word must stand alone, or be that of a subtotal. */
function isSubtotal(row: SheetRow): boolean {
  const label = labelOf(row);
  return label === TOTALS.exec(label)?.[0] || /^(?:sub[- ]?totals?|zwischensumme)\b/iu.test(label);
}

function labelOf({ cells }: SheetRow): string {
  return cells.find(({ text }) => text !== '')?.text ?? '';
}

/** Of fewer rows a tip may have been used as much as the others together. */
const ENOUGH_TO_SUM = 4;

function isSum({ cells }: SheetRow, above: readonly SheetRow[]): boolean {
  if (above.length < ENOUGH_TO_SUM) return false;
  return cells.some(({ text }, column) => {
    const total = plain(text);
    if (!(total > 0)) return false;
    const sum = above.reduce((all, row) => all + (plain(row.cells.at(column)?.text ?? '') || 0), 0);
    return Math.abs(sum - total) <= 1e-9 * total;
  });
}

function plain(text: string): number {
  return /^[+-]?\d+(?:[.,]\d+)?$/u.test(text) ? Number(text.replace(',', '.')) : Number.NaN;
}

/** What is said of a row of sums. */
export function totalText(row: SheetRow): string {
  return `${show(labelOf(row))} sums up the rows above and is no tip`;
}
