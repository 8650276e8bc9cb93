import { describe, expect, it } from 'vitest';
import { readWorkbook } from '../../../src/cli/workbook.js';
import type { TableSource } from '../../../src/analysis/sheet.js';
import { type LogOptions, readLog } from '../../../src/studies/fit/read-log.js';
import { type MadeCell, madeWorkbook } from '../../support/make-workbook.js';

/*
 * Six tips as twenty people might write them down: 12, 30, 45, 7, 60 and 22 images; the first two broke, the third was contaminated,
 * the fourth chipped, the others were still fit. Each table is read with all of it, or refused with the place and what to do.
 */
const IMAGES = [12, 30, 45, 7, 60, 22];
const CAUSES = ['breakage', 'breakage', 'fouling', 'chipping', null, null];
const ENDED = ['broken', 'broken', 'contaminated', 'chipped', 'ok', ''];
const DATES = IMAGES.map((_, i) => new Date(Date.UTC(2031, 0, i + 5)));

const PLAIN: LogOptions = {
  kind: null,
  kinds: new Map(),
  columns: new Map(),
  units: new Map(),
  endings: new Map(),
};

interface Style {
  readonly table: string | readonly (readonly MadeCell[])[];
  readonly options?: Partial<LogOptions>;
  /** Rows that are no tips, and said to be left out. */
  readonly leftOut?: number;
}

const rows = (cells: (i: number) => readonly MadeCell[]) => IMAGES.map((_, i) => cells(i));
const csv = (head: string, cells: (i: number) => readonly (string | number)[], by = ',') =>
  [head, ...IMAGES.map((_, i) => cells(i).join(by))].join('\n');
const usual = (i: number) => [`T${i}`, IMAGES[i], ENDED[i]] as const;
const HEAD = ['Tip', 'Images', 'Ended by'] as const;

const GERMAN = {
  columns: new Map([
    ['tip', 'Spitze'],
    ['images', 'Bilder'],
    ['ended', 'Grund'],
  ]),
};
const GERMAN_WORDS = new Map([
  ['gebrochen', 'breakage'],
  ['verschmutzt', 'fouling'],
  ['abgesplittert', 'chipping'],
  ['noch gut', 'sound'],
]);
const IN_GERMAN = ['gebrochen', 'gebrochen', 'verschmutzt', 'abgesplittert', 'noch gut', 'noch gut'];
const OWN_WORDS = [
  'lever broke',
  'lever broke',
  'picked up polymer',
  'apex chipped',
  'changed sample',
  'changed sample',
];

const READ: Readonly<Record<string, Style>> = {
  'plain, with commas': { table: csv(HEAD.join(), usual) },
  'with semicolons and decimal commas': {
    table: csv('tip;path [mm];images;ended', (i) => [`T${i}`, `${IMAGES[i]},25`, IMAGES[i], ENDED[i]], ';'),
  },
  'with tabs and quoted cells': {
    table: csv('"tip"\t"images"\t"ended"', (i) => usual(i).map((cell) => `"${cell}"`), '\t'),
  },
  'with blank lines between': { table: csv(HEAD.join(), usual).replaceAll('\n', '\n\n') },
  'a workbook': { table: [HEAD, ...rows(usual)] },
  'a workbook with dates and formulas': {
    table: [
      ['Tip', 'Date', 'Images', 'Ended by'],
      ...rows((i) => [`T${i}`, DATES[i], { formula: 'A1', value: IMAGES[i] }, ENDED[i]]),
    ],
  },
  'with a title and a note above': {
    table: [['Tip log of bench 2'], ['kept since January', 2031], [], HEAD, ...rows(usual)],
  },
  'with blank columns between and beside': {
    table: [[null, 'Tip', null, 'Images', 'Ended by'], ...rows((i) => [null, `T${i}`, null, IMAGES[i], ENDED[i]])],
  },
  'with units in the heads': {
    table: [
      ['Tip', 'Path (µm)', 'Images [scans]', 'Ended by'],
      ...rows((i) => [`T${i}`, IMAGES[i] * 512, IMAGES[i], ENDED[i]]),
    ],
  },
  'with units in a row of their own': {
    table: [
      ['Tip', 'Path', 'Images', 'Ended by'],
      [null, '[mm]', null, null],
      ...rows((i) => [`T${i}`, IMAGES[i] / 2, IMAGES[i], ENDED[i]]),
    ],
  },
  'with merged heads over two rows': {
    table: [
      ['Tip', 'Use', null, 'Ended by'],
      [null, 'images', 'path [mm]', null],
      ...rows((i) => [`T${i}`, IMAGES[i], IMAGES[i] / 2, ENDED[i]]),
    ],
  },
  'with a title above merged heads over two rows, most of them in the lower one': {
    table: [
      ['Tips of bench 2'],
      ['Tip', 'Use', null, null, null, 'Ended by'],
      [null, 'images', 'path [mm]', 'approaches', 'last sound images', null],
      ...rows((i) => [`T${i}`, IMAGES[i], IMAGES[i] / 2, 2, IMAGES[i] - 1, ENDED[i]]),
    ],
  },
  'with a title above rows with semicolons': {
    table: `Tips of bench 2, kept since January\n\n${csv('tip;path [mm];images;ended', (i) => [`T${i}`, `${IMAGES[i]},25`, IMAGES[i], ENDED[i]], ';')}`,
  },
  'with a title above heads in German, as a mapping says': {
    table: [
      ['Spitzen am Platz 2'],
      [],
      ['Spitze', 'Bilder', 'Grund'],
      ...rows((i) => [`S${i}`, IMAGES[i], IN_GERMAN[i]]),
    ],
    options: { ...GERMAN, endings: GERMAN_WORDS },
  },
  'with heads in groups, of which one is for the last sound use': {
    table: [
      ['Tip', 'Images', 'Last sound', null, 'Ended by'],
      [null, null, 'images', 'path [mm]', null],
      ...rows((i) => [`T${i}`, IMAGES[i], IMAGES[i] - 1, (IMAGES[i] - 1) / 2, ENDED[i]]),
    ],
  },
  'with a total at the foot': {
    table: [HEAD, ...rows(usual), ['Total', IMAGES.reduce((a, b) => a + b), null]],
    leftOut: 1,
  },
  'with a sum at the foot that does not say so': {
    table: [HEAD, ...rows(usual), [null, { formula: 'SUM(B2:B7)', value: IMAGES.reduce((a, b) => a + b) }, null]],
    leftOut: 1,
  },
  'with a mean and a sum in another language at the foot': {
    table: [HEAD, ...rows(usual), ['Mittelwert', 29.3, null], ['Summe', 176, null]],
    leftOut: 2,
  },
  'with a subtotal between the tips': {
    table: [HEAD, ...rows(usual).slice(0, 3), ['Subtotal', 87, null], ...rows(usual).slice(3), ['Total', 176, null]],
    leftOut: 2,
  },
  'with tips whose names begin as a sum does': {
    table: [HEAD, ...rows((i) => [`Sum-${i}`, IMAGES[i], ENDED[i]])],
  },
  'with n/a and dashes where nothing is known': {
    table: [
      ['Tip', 'Images', 'Path [mm]', 'Load [nN]', 'Ended by'],
      ...rows((i) => [`T${i}`, IMAGES[i], i % 2 === 0 ? 'n/a' : '–', i === 3 ? '#N/A' : 2, ENDED[i]]),
    ],
  },
  'in German, as a mapping says': {
    table: [['Spitze', 'Bilder', 'Grund'], ...rows((i) => [`S${i}`, IMAGES[i], IN_GERMAN[i]])],
    options: { ...GERMAN, endings: GERMAN_WORDS },
  },
  'in the lab’s own words, as a mapping says': {
    table: [['needle', 'frames taken', 'what happened'], ...rows((i) => [`N${i}`, IMAGES[i], OWN_WORDS[i]])],
    options: {
      columns: new Map([
        ['tip', 'needle'],
        ['images', 'frames taken'],
        ['ended', 'what happened'],
      ]),
      endings: new Map([
        ['Lever broke', 'breakage'],
        ['picked up polymer', 'fouling'],
        ['changed sample', 'sound'],
      ]),
    },
  },
};

const REFUSED: Readonly<Record<string, Style & { readonly because: RegExp }>> = {
  'two tables one below the other': {
    table: [HEAD, ...rows(usual), [], HEAD, ...rows(usual)],
    because: /^9:1 another table begins here; put each on a sheet/u,
  },
  'two tables side by side': {
    table: [[...HEAD, null, ...HEAD], ...rows((i) => [...usual(i), null, ...usual(i)])],
    because: /^1:5 both `Tip` and `Tip` read as `tip`; say which/u,
  },
  'in German without a mapping': {
    table: [['Spitze', 'Bilder', 'Grund'], ...rows((i) => [`S${i}`, IMAGES[i], IN_GERMAN[i]])],
    because: /no column says what ended a tip.*--map/u,
  },
  'in the lab’s own words without a mapping': {
    table: [HEAD, ...rows((i) => [`N${i}`, IMAGES[i], OWN_WORDS[i]])],
    because: /^2:3 read `lever broke` as what ended the tip.*--map/u,
  },
  'a note below the tips': {
    table: [HEAD, ...rows(usual), ['Ask the second shift about T3']],
    because: /^8:1 no use is given; a row wants `Images` above zero/u,
  },
};

async function sourceOf(table: Style['table']): Promise<TableSource> {
  if (typeof table === 'string') return table;
  const [sheet] = await readWorkbook('log.xlsx', madeWorkbook({ Tips: table }));
  return sheet.rows;
}

describe('spreadsheets in many styles', () => {
  it.each(Object.entries(READ))('are read whole: %s', async (_, { table, options, leftOut = 0 }) => {
    const reading = readLog(await sourceOf(table), { ...PLAIN, ...options });
    if (!reading.ok) throw new Error(reading.faults.map(({ line, message }) => `${line}: ${message}`).join('\n'));
    const { log } = reading;
    expect(log.faults.filter(({ severity }) => severity === 'row')).toEqual([]);
    expect(log.rows.map(({ use }) => use.image)).toEqual(IMAGES);
    expect(log.rows.map(({ ending }) => ending.cause)).toEqual(CAUSES);
    expect([log.rowCount, log.leftOut]).toEqual([IMAGES.length + leftOut, leftOut]);
  });

  it.each(Object.entries(REFUSED))('are refused with the place and what to do: %s', async (_, { table, because }) => {
    const reading = readLog(await sourceOf(table), PLAIN);
    const faults = reading.ok ? reading.log.faults.filter(({ severity }) => severity === 'row') : reading.faults;
    expect(faults.map(({ line, column, message }) => `${line}:${column} ${message}`).join('\n')).toMatch(because);
  });

  it('say which column holds the path where its unit stands below the head', async () => {
    const reading = readLog(await sourceOf(READ['with units in a row of their own'].table), PLAIN);
    expect(reading.ok && reading.log.rows.map(({ use }) => use.distance)).toEqual(IMAGES.map((n) => n / 2));
  });

  it('keep groups of heads apart: the last sound use is not the use', async () => {
    const reading = readLog(
      await sourceOf(READ['with heads in groups, of which one is for the last sound use'].table),
      PLAIN,
    );
    expect(reading.ok && reading.log.rows.map(({ sound }) => sound.image)).toEqual(IMAGES.map((n) => n - 1));
  });
});
