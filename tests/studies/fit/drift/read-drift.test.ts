import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readDrift } from '../../../../src/studies/fit/drift/read-drift.js';
import { root } from '../../../support/command.js';
import { madeDriftReadings } from '../../../support/made-drift.js';
import { perhapsNone } from '../../../support/non-empty.js';

const PLAIN = { columns: new Map<string, string>(), units: new Map<string, string>() };

function read(text: string, options = PLAIN) {
  const reading = readDrift(text, options);
  if (!reading.ok) throw new Error(reading.faults.map(({ message }) => message).join('; '));
  return reading.log;
}

function refused(text: string, options = PLAIN): readonly string[] {
  const reading = readDrift(text, options);
  return reading.ok ? [] : reading.faults.map(({ line, column, message }) => `${line}:${column} ${message}`);
}

describe('a table of drift', () => {
  const WANTED = [
    { disturbance: 'a', kind: 'handling', time: 90, value: 12.5, error: null },
    { disturbance: 'b', kind: 'move', time: 150, value: -0.25, error: null },
  ];
  it.each([
    ['commas', 'disturbance,kind,time [min],displacement [nm]\na,handling,1.5,12.5\nb,move,2.5,-0.25'],
    [
      'semicolons and decimal commas',
      'Disturbance;Kind;Time (min);Shift (nm)\r\na;Handling;1,5;12,5\r\nb;move;2,5;-0,25',
    ],
    [
      'tabs and other units',
      'id\ttype\ttime since disturbance [s]\tmoved [um]\na\texchange\t90\t0.0125\nb\toffset\t150\t-0.00025',
    ],
    [
      'a unit in every cell',
      'event,kind,elapsed [s],displacement [nm]\na,handling,1.5 min,12.5 nm\nb,hop,2.5 min,-250 pm',
    ],
  ])('reads with %s', (_, text) => {
    expect(read(text).rows).toMatchObject(WANTED);
  });

  it('reads rates with their stated errors, and columns and units that are said by hand', () => {
    const text = 'n,what,t,v,sd [pm/s],when\na,move,2,6,100,2031-05-17';
    const options = {
      columns: new Map([
        ['disturbance', 'n'],
        ['kind', 'what'],
        ['time', 't'],
        ['rate', 'v'],
        ['date', 'when'],
      ]),
      units: new Map([
        ['time', 'h'],
        ['v', 'nm/min'],
      ]),
    };
    const { rows, form, lastDate } = read(text, options);
    expect(form).toBe('rate');
    expect(lastDate).toBe('2031-05-17');
    expect(rows[0]).toMatchObject({ kind: 'move', time: 7200, value: 0.1, error: 0.1 });
  });

  it('takes all as handling where nothing says what disturbed, and says which words it read as others', () => {
    expect(read('disturbance,time [s],rate [nm/s]\n1,5,2')).toMatchObject({ saysKind: false, readAs: [] });
    const { rows, readAs } = read('disturbance,kind,time [s],rate [nm/s]\n1,Tip exchange,5,2\n1,Tip exchange,6,1');
    expect(rows.map(({ kind }) => kind)).toEqual(['handling', 'handling']);
    expect(readAs).toEqual([{ word: 'Tip exchange', meant: 'handling', rows: 2 }]);
  });

  it.each([
    ['without a time', 'disturbance,rate [nm/s]\n1,2', '1:1 no column says how long after it'],
    ['without any reading', 'disturbance,time [s]\n1,2', '1:1 no column says how far all has moved, or its rate'],
    ['without disturbances', 'time [s],rate [nm/s]\n1,2', '1:1 no column says after which disturbance a reading is'],
    [
      'with both readings',
      'id,time [s],rate [nm/s],shift [nm]\n1,2,3,4',
      '1:13 both `shift [nm]` and `rate [nm/s]` are here',
    ],
    ['without a unit', 'id,time,rate [nm/s]\n1,2,3', '1:4 the column `time` has no unit; one such as `min` is wanted'],
    [
      'with a unit of something else',
      'id,time [s],rate [nm]\n1,2,3',
      '1:13 the column `rate [nm]` read the unit `nm`; one such as `nm/s`',
    ],
  ])('is refused %s', (_, text, message) => {
    expect(refused(text).join('\n')).toContain(message);
  });

  it('is refused where a column or unit of the options is none', () => {
    const options = { columns: new Map([['tim', 'x']]), units: new Map([['rat', 'nm/s']]) };
    const said = refused('id,time [s],rate [nm/s]\n1,2,3', options).join('\n');
    expect(said).toContain('--column tim=…: nothing of a table of drift is called `tim`; did you mean `time`?');
    expect(said).toContain('--unit rat=…: no column that is read is called `rat`; did you mean `rate`?');
  });

  const HEAD = 'id,kind,time [s],rate [nm/s],error [nm/s]';
  it.each([
    ['no name', ',move,5,2,1', '3:1 the disturbance has no name'],
    [
      'another kind',
      'b,moved,5,2,1',
      '3:3 read `moved` as what disturbed; handling or move is wanted; did you mean `move`?',
    ],
    ['no time', 'b,move,n/a,2,1', '3:8 `time [s]`: nothing stands here'],
    [
      'a time before its disturbance',
      'b,move,-5,2,1',
      '3:8 `time [s]`: read `-5`; a number below zero is no time after',
    ],
    ['a word for a rate', 'b,move,5,fast,1', '3:10 `rate [nm/s]`: read `fast`; a number is wanted'],
    ['no error', 'b,move,5,2,n/a', '3:12 `error [nm/s]`: nothing stands here'],
    ['an error of zero', 'b,move,5,2,0', '3:12 `error [nm/s]`: an error above zero is wanted'],
    ['a kind that its disturbance has not', 'a,handling,6,2,1', '3:3 the disturbance `a` is move further up'],
    [
      'a time that its disturbance has been read at',
      'a,move,5,3,1',
      '3:1 the disturbance `a` has a reading at this time in line 2 already',
    ],
  ])('does not use a row with %s, and says so', (_, row, message) => {
    const { rows, faults } = read(`${HEAD}\na,move,5,2,1\n${row}`);
    expect(rows).toHaveLength(1);
    expect(faults.map(({ line, column, message: said }) => `${line}:${column} ${said}`)[0]).toContain(message);
  });

  it('is shipped as it was made, and every row of it is used', () => {
    const text = readFileSync(join(root, 'scenarios/logs/drift-readings.csv'), 'utf8');
    expect(text).toBe(madeDriftReadings());
    expect(read(text)).toMatchObject({ rowCount: 220, faults: [], form: 'displacement' });
  });

  it('never loses a row: each is used or said, for any cells', () => {
    const cell = fc.oneof(
      fc.constantFrom('', 'a', 'b', 'move', 'handling', 'n/a', '-'),
      fc.integer({ min: -5, max: 50 }).map(String),
      fc.string({ maxLength: 5 }).map((text) => text.replace(/["\r\n,;\t]/gu, '')),
    );
    fc.assert(
      fc.property(
        fc.array(fc.array(cell, { minLength: 5, maxLength: 5 }), { minLength: 1, maxLength: 12 }),
        (cells) => {
          const log = read([HEAD, ...cells.map((row) => row.join(','))].join('\n'));
          const said = new Set(log.faults.map(({ line }) => line));
          expect(log.rows.length + said.size).toBe(log.rowCount);
          for (const { time, value, error } of perhapsNone(log.rows)) {
            expect(time).toBeGreaterThanOrEqual(0);
            expect(Number.isFinite(value)).toBe(true);
            expect(error).toBeGreaterThan(0);
          }
        },
      ),
      { seed: 20310517, numRuns: 300 },
    );
  });
});
