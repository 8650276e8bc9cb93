import { type Appended, delimiterOf, quotedCell, readSheet, textAt } from '../../analysis/sheet.js';
import type { CampaignModel } from '../../campaign/model.js';
import { suppliesOf, tipsOf } from '../../campaign/supplies.js';
import { nearest } from '../../scenario/nearest.js';
import type { Place, TextFault } from '../../scenario/places.js';
import { show } from '../../scenario/show.js';
import { imageName } from './place-names.js';
import { parkedLabel, STATE_COLUMNS, type What } from './state-rows.js';
import { CHECK_WORDS, IMAGE_WORDS, JUDGED_WORDS, NONE, plain, readWord, wordFor, type Words } from './state-words.js';

/** Columns of a log with a row a scan, as the run sheet prints them; blanks are what nobody wrote down. */
export const SCAN_COLUMNS = [
  'time',
  'image',
  'tip',
  'outcome',
  'check',
  'radius [nm]',
  'tip ended',
  'remarks',
] as const;
export type ScanColumn = (typeof SCAN_COLUMNS)[number];

/** A row of it. */
interface Scan {
  readonly image: number;
  /** Name of the tip; the one of the row before where none is written. */
  readonly tip: string;
  readonly outcome: 'kept' | 'flagged' | 'unreviewed';
  readonly check: 'passed' | 'failed' | null;
  readonly radius: string;
  readonly hasEnded: boolean;
}

export type FromScans =
  | { readonly ok: true; readonly rows: readonly (readonly string[])[] }
  | { readonly ok: false; readonly faults: readonly TextFault[] };

/** Whether a table is such a log, and no table of how a campaign stands. */
export function isScanLog(text: string): boolean {
  const read = readSheet(text);
  if (!read.ok) return false;
  const heads = read.sheet.head.cells.map(({ text: head }) => head.toLowerCase());
  return heads.includes('image') && heads.includes('outcome') && !heads.includes('what');
}

/**
 * How a campaign stands, as rows under STATE_COLUMNS, from a log of its scans.
 * @param now when that is, as it is typed; null for the time of the last scan that has one
 */
export function stateFromScans(model: CampaignModel, text: string, now: string | null): FromScans {
  const read = readSheet(text);
  if (!read.ok) return read;
  const heads = read.sheet.head.cells.map((cell) => cell.text.toLowerCase());
  const columnOf = (name: ScanColumn) => {
    const place = heads.indexOf(name);
    return place < 0 ? null : place;
  };
  const faults: TextFault[] = [];
  const scans: Scan[] = [];
  let time = '';
  for (const { place, cells } of read.sheet.rows) {
    const written = (name: ScanColumn) => textAt(cells, columnOf(name));
    const at = (name: ScanColumn) => cells.at(columnOf(name) ?? 0)?.place ?? place;
    time = written('time') || time;
    const image = imageCalled(model, written('image'), at('image'), faults);
    const outcome = wordIn(written('outcome'), IMAGE_WORDS, at('outcome'), faults);
    const check = written('check') === '' ? null : wordIn(written('check'), CHECK_WORDS, at('check'), faults);
    const tip = written('tip') || (scans.at(-1)?.tip ?? '');
    if (tip === '') faults.push({ ...at('tip'), message: 'no tip is named; its name, such as S-014, is wanted' });
    if (outcome !== null && outcome !== 'kept' && outcome !== 'flagged' && outcome !== 'unreviewed')
      faults.push({ ...at('outcome'), message: 'a row is a scan that is over: kept, flagged or unreviewed is wanted' });
    else if (image !== null && outcome !== null)
      scans.push({ image, tip, outcome, check, radius: written('radius [nm]'), hasEnded: written('tip ended') !== '' });
  }
  const moment = now ?? time;
  if (moment === '')
    faults.push({
      line: 1,
      column: 1,
      message: 'no row says when it was; --now "Tue 14:00" does, or the column `time`',
    });
  if (faults.length > 0) return { ok: false, faults };
  return { ok: true, rows: [[...STATE_COLUMNS], ...rowsOf(model, scans, moment)] };
}

function imageCalled(model: CampaignModel, text: string, place: Place, faults: TextFault[]): number | null {
  const names = model.images.map((image) => imageName(model, image));
  const number = /^\d+$/u.test(text) ? Number(text) - 1 : names.findIndex((name) => plain(name) === plain(text));
  if (number >= 0 && number < names.length) return number;
  const near = nearest(text, names);
  const message =
    text === ''
      ? 'no image is named'
      : near !== null
        ? `the plan has no image ${show(text)}; did you mean ${show(near)}?`
        : `the plan has no image ${show(text)}; it has ${names.length}, from ${show(names[0])} to ${show(names[names.length - 1])}`;
  faults.push({ ...place, message });
  return null;
}

function wordIn<Meaning>(text: string, words: Words<Meaning>, place: Place, faults: TextFault[]): Meaning | null {
  const reading = readWord(text, words);
  if (reading.ok) return reading.value;
  faults.push({ ...place, message: reading.message });
  return null;
}

function rowsOf(model: CampaignModel, scans: readonly Scan[], now: string): readonly (readonly string[])[] {
  const suspects = suspectIn(model, scans);
  const images = model.images.flatMap((image) => {
    const own = scans.filter((scan) => scan.image === image.number);
    const last = own.at(-1);
    if (last === undefined) return [];
    const outcome = suspects.has(last) ? 'flagged' : last.outcome;
    return [['image', imageName(model, image), outcome, String(own.length), '']];
  });
  const several = model.shares.length > 1;
  return [
    ['now', '', now, '', ''],
    ...images,
    ...model.shares.flatMap((share, number) => {
      const own = scans.filter(({ image }) => share.some((each) => each.number === image));
      const at = several ? String(number + 1) : '';
      return own.length === 0
        ? []
        : instrumentRows(model, own).map(([what, which, value]) => [what, which, value, '', at]);
    }),
  ];
}

/** Scans that a failed check of their tip puts in doubt: those since its last passed one, where such are taken again. */
function suspectIn({ settings }: CampaignModel, scans: readonly Scan[]): ReadonlySet<Scan> {
  const found = new Set<Scan>();
  if (settings.noticing.check?.repeatSuspects !== true) return found;
  for (const [place, { check, tip }] of scans.entries()) {
    if (check !== 'failed') continue;
    const own = scans.slice(0, place + 1).filter((scan) => scan.tip === tip);
    for (const scan of own.slice(own.findLastIndex((each) => each.check === 'passed') + 1)) found.add(scan);
  }
  return found;
}

type Told = readonly [what: What, which: string, value: string];

/** @param scans of one instrument, at least one */
function instrumentRows(model: CampaignModel, scans: readonly Scan[]): readonly Told[] {
  const kindOf = ({ image }: Scan) => model.kinds[model.images[image].pass.kind].name;
  const [last, ...others] = tipsOn(scans);
  const isOn = !last.some(({ hasEnded }) => hasEnded);
  const parked = others.filter((own) => kindOf(own[0]) !== kindOf(last[0]));
  const used = new Map<string, Set<string>>();
  for (const scan of scans) used.set(kindOf(scan), (used.get(kindOf(scan)) ?? new Set<string>()).add(scan.tip));
  return [
    ['tip on', '', isOn ? kindOf(last[0]) : NONE],
    ...(isOn ? tipRows(last).map(([what, value]): Told => [what, '', value]) : []),
    ...parked.toReversed().flatMap((own): readonly Told[] => {
      const kind = kindOf(own[0]);
      const label = parkedLabel(kind, null);
      return [['tip parked', '', kind], ...tipRows(own).map(([what, value]): Told => [what, label, value])];
    }),
    ...sitesRows(model, used),
    ...suppliesOf(model.settings).flatMap(([what, { atHand }]): readonly Told[] => {
      const kind = [...used.keys()].find((each) => tipsOf(each) === what);
      if (kind === undefined || model.workflow === 'hop') return [];
      return [['left', what, String(Math.max(0, atHand - (used.get(kind)?.size ?? 0)))]];
    }),
  ];
}

/** Scans by the tips that have not ended: of the tip that scanned last, then of the others, the last one first. */
function tipsOn(scans: readonly Scan[]): readonly (readonly Scan[])[] {
  const names = [...new Set(scans.toReversed().map(({ tip }) => tip))];
  return names
    .map((name) => scans.filter(({ tip }) => tip === name))
    .filter((own, place) => place === 0 || !own.some(({ hasEnded }) => hasEnded));
}

function tipRows(own: readonly Scan[]): readonly (readonly [What, string])[] {
  const passed = own.findLastIndex(({ check }) => check === 'passed');
  const last = own.at(-1);
  const judged =
    last?.check === 'failed' ? 'failed a check' : last?.outcome === 'flagged' ? 'flagged by an image' : 'sound';
  const radius = own.at(passed)?.radius ?? '';
  return [
    ['tip use', `${own.length} images`],
    ['tip checked', passed < 0 ? 'never' : `${own.length - 1 - passed} images ago`],
    ...(passed < 0 || radius === '' ? [] : [['tip radius', `${radius} nm`] as const]),
    ['tip judged', wordFor(judged, JUDGED_WORDS)],
  ];
}

/** Of a chip: as many as there were tips, less those of chips that are used up. */
function sitesRows(model: CampaignModel, used: ReadonlyMap<string, ReadonlySet<string>>): readonly Told[] {
  if (model.workflow !== 'hop') return [];
  return Object.entries(model.settings.workflows.hop.chip.sites).map(([kind, sites]) => {
    const tips = used.get(kind)?.size ?? 0;
    return ['sites used', kind, String(tips === 0 ? 0 : ((tips - 1) % sites) + 1)];
  });
}

/** What is wrong with a value by itself; null where nothing is. */
export function scanFaultIn(column: ScanColumn, value: string): string | null {
  const words = column === 'outcome' ? IMAGE_WORDS : column === 'check' ? CHECK_WORDS : null;
  const reading = words === null ? null : readWord<unknown>(value, words);
  return reading?.ok === false ? reading.message : null;
}

/**
 * The text of such a log with one more scan.
 * @param before null where the log is begun
 * @param values as they are written
 */
export function withScan(before: string | null, values: ReadonlyMap<ScanColumn, string>): Appended {
  const text = before ?? `${SCAN_COLUMNS.join(',')}\n`;
  const read = readSheet(text);
  if (!read.ok) return { ok: false, messages: read.faults.map(({ message }) => message) };
  const heads = read.sheet.head.cells.map((cell) => cell.text.toLowerCase());
  const messages = [...values].flatMap(([column, value]) => {
    if (!heads.includes(column))
      return [`the log has no column ${show(column)}, so ${show(value)} has no place; add one`];
    return scanFaultIn(column, value) ?? [];
  });
  if (messages.length > 0) return { ok: false, messages };
  const delimiter = delimiterOf(text);
  const cells = new Map<string, string>(values);
  const row = heads.map((head) => quotedCell(cells.get(head) ?? '', delimiter));
  return {
    ok: true,
    text: `${text.replace(/(?<!\n)$/u, '\n')}${row.join(delimiter)}\n`,
    rows: read.sheet.rows.length + 1,
  };
}
