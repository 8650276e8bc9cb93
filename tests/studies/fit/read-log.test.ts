import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitLog } from '../../../src/studies/fit/fit.js';
import { type LogOptions, readLog } from '../../../src/studies/fit/read-log.js';
import { root } from '../../support/command.js';
import { madeLog, madeRadii } from '../../support/make-log.js';

const PLAIN: LogOptions = { kind: null, kinds: new Map(), columns: new Map(), units: new Map(), endings: new Map() };

function logOf(text: string, options: Partial<LogOptions> = {}) {
  const reading = readLog(text, { ...PLAIN, ...options });
  if (!reading.ok) throw new Error(reading.faults.map(({ message }) => message).join('\n'));
  return reading.log;
}

const fitted = (text: string) => {
  const reading = readLog(text, PLAIN);
  if (!reading.ok || reading.log.rows.length === 0) return null;
  return fitLog(reading.log, {
    file: 'log.csv',
    sha256: '',
    toolVersion: '0',
    seed: '1',
    date: null,
    samples: 1,
    distributions: new Map(),
    units: new Map(),
    unitBefore: () => null,
    priorOf: () => null,
    blunting: [],
  });
};

describe('a log', () => {
  it('is the same in any separator, with or without a byte order mark, and with either line end', () => {
    const rows = [
      ['Tip', 'kind', 'Images', 'path [um]', 'Ended by'],
      ['1', 'sharp', '3', '500', 'broken'],
      ['2', 'sharp', '4', '700', ''],
    ];
    const first = logOf(rows.map((row) => row.join(',')).join('\n')).rows;
    expect(first.map(({ use }) => use)).toEqual([
      { image: 3, distance: 0.5 },
      { image: 4, distance: 0.7 },
    ]);
    for (const separator of [',', ';', '\t'])
      for (const end of ['\n', '\r\n'])
        for (const mark of ['', '\uFEFF'])
          expect(logOf(mark + rows.map((row) => row.join(separator)).join(end)).rows).toEqual(first);
  });

  it('has decimal commas where some number shows them, and refuses a comma or a dot that may mean either', () => {
    const of = (...paths: string[]) =>
      logOf(`tip;kind;path [mm];ended\n${paths.map((path, i) => `${String(i)};a;${path};broken`).join('\n')}`);
    expect(of('1,25', '1,234').rows.map(({ use }) => use.distance)).toEqual([1.25, 1.234]);
    expect(of('1,234.5', '12').rows.map(({ use }) => use.distance)).toEqual([1234.5, 12]);
    const doubtful = of('1,234', '2');
    expect(doubtful.rows).toHaveLength(1);
    expect(doubtful.faults[0]).toMatchObject({ line: 2, column: 5 });
    expect(doubtful.faults[0].message).toContain('which may be `1234` or `1.234`');
    expect(of('1.234,5', '12').rows.map(({ use }) => use.distance)).toEqual([1234.5, 12]);
    const dotted = of('2.345,5', '1.234');
    expect(dotted.rows).toHaveLength(1);
    expect(dotted.faults[0].message).toContain('which may be `1234` or `1,234`');
  });

  it('refuses an amount that is next to nothing or beyond all reason, as no distribution could be fitted to it', () => {
    const { rows, faults } = logOf('tip,kind,images,ended\n1,a,1e-300,broken\n2,a,1e300,broken\n3,a,3,broken');
    expect(rows.map(({ use }) => use.image)).toEqual([3]);
    expect(faults.map(({ line, column }) => [line, column])).toEqual([
      [2, 5],
      [3, 5],
    ]);
    expect(faults[0].message).toContain('read `1e-300`, which is too small to be fitted');
    expect(faults[1].message).toContain('read `1e300`, which is too large to be fitted');
  });

  it('reads common words for a cause, and takes a question mark for suspicion', () => {
    const log = logOf(
      'tip,kind,images,ended\n1,a,3,Snapped\n2,a,3,worn out\n3,a,3,broken?\n4,a,3,doubt\n5,a,3,\n6,a,3,ok',
    );
    expect(log.rows.map(({ ending }) => [ending.cause, ending.suspected, ending.suspect])).toEqual([
      ['breakage', false, null],
      ['worn-out', false, null],
      [null, true, 'breakage'],
      [null, true, null],
      [null, false, null],
      [null, false, null],
    ]);
  });

  it('takes n/a, a dash and a blank for a value that is missing, where the rest of the row suffices', () => {
    const { rows, faults } = logOf(
      'tip,kind,images,path [mm],load [nN],ended\n1,a,3,n/a,N/A,broken\nn/a,a,-,7,2,ok\n–,–,4,,,ok\n4,a,n/a,NA,1,broken',
    );
    expect(rows.map(({ tip, kind, use, load }) => [tip, kind, use, load])).toEqual([
      ['1', 'a', { image: 3 }, null],
      ['row 2', 'a', { distance: 7 }, 2],
      ['row 3', 'tip', { image: 4 }, null],
    ]);
    expect(faults.map(({ line, message }) => [line, message.slice(0, 15)])).toEqual([[5, 'no use is given']]);
  });

  it('counts a tip written down twice once, and follows one that was put on again', () => {
    const head = 'tip,kind,images,images before,ended\n';
    expect(logOf(`${head}1,a,3,,\n1,a,8,3,broken`).rows).toHaveLength(2);
    const doubled = logOf(`${head}1,a,3,,broken\n1,a,3,,broken`);
    expect(doubled.rows).toHaveLength(1);
    expect(doubled.faults[0].message).toContain('is a duplicate of line 2');
  });

  it('never loses a row: each is used or said, for any cells', () => {
    const cell = fc.oneof(
      fc.constantFrom('', '3', '0', '-1', '1,5', '1,234', '7 mm', 'NaN', '1e999', 'broken', 'sound', '?', '"a;b"'),
      fc.string({ maxLength: 6 }).map((text) => text.replace(/["\n\r;]/gu, '')),
    );
    const row = fc.array(cell, { minLength: 0, maxLength: 8 });
    fc.assert(
      fc.property(fc.array(row, { maxLength: 12 }), (rows) => {
        const text = [
          'tip;kind;images;path [mm];last sound images;entry images;ended',
          ...rows.map((cells) => cells.join(';')),
        ].join('\n');
        const reading = readLog(text, PLAIN);
        if (!reading.ok) return;
        const refused = new Set(reading.log.faults.map(({ line }) => line));
        expect(reading.log.rows.length + refused.size).toBe(reading.log.rowCount);
        fitted(text);
      }),
      { seed: 31, numRuns: 150 },
    );
  });

  it('never throws for any text', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ maxLength: 200 }), fc.string({ unit: 'binary', maxLength: 200 })), (text) => {
        readLog(text, PLAIN);
        readLog(`tip,images,ended\n${text}`, PLAIN);
      }),
      { seed: 32, numRuns: 500 },
    );
  });
});

describe('the logs that are shipped', () => {
  it('are what their script makes', () => {
    expect(readFileSync(join(root, 'scenarios/logs/tip-log.csv'), 'utf8')).toBe(madeLog());
    expect(readFileSync(join(root, 'scenarios/logs/tip-radii.csv'), 'utf8')).toBe(madeRadii());
  });

  it('have 150 tips of three kinds, of which all but three rows can be used', () => {
    const log = logOf(madeLog());
    expect(new Set(log.rows.map(({ kind }) => kind))).toEqual(new Set(['sharp', 'coated', 'blunt']));
    expect(log.rowCount).toBe(151);
    expect(log.rows).toHaveLength(148);
  });
});
