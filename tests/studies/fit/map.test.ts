import { describe, expect, it } from 'vitest';
import { readSheet, type Sheet } from '../../../src/analysis/sheet.js';
import { askMapping } from '../../../src/studies/fit/map.js';
import { NO_MAPPING } from '../../../src/studies/fit/mapping.js';
import { propose } from '../../../src/studies/fit/propose.js';

function sheetOf(...lines: readonly string[]): Sheet {
  const read = readSheet(lines.join('\n'));
  if (!read.ok) throw new Error('no sheet');
  return read.sheet;
}

/** What is mapped where the questions are answered in turn; and the questions. */
async function answered(sheet: Sheet, ...answers: readonly string[]) {
  const asked: string[] = [];
  const mapping = await askMapping(NO_MAPPING, sheet, propose(sheet, NO_MAPPING), (question) => {
    const answer = answers.at(asked.length);
    asked.push(question);
    if (answer === undefined) throw new Error(`no answer to ${question}`);
    return Promise.resolve(answer);
  });
  return { mapping, asked };
}

const LOG = sheetOf(
  'tip,Bilder,Grund,Bemerkung',
  'a,12,gebrochen,x',
  'b,9,gebrochen,y',
  'c,20,breakage,z',
  'd,7,seltsam,z',
);

describe('the columns of a log in other words', () => {
  it('are proposed by what is like them, and words of endings with them, the most frequent first', () => {
    const { columns, endings } = propose(LOG, NO_MAPPING);
    expect(columns.map(({ role, head, isKnown }) => [role, head, isKnown])).toEqual(
      expect.arrayContaining([
        ['tip', 'tip', true],
        ['images', 'Bilder', false],
        ['ended', 'Grund', false],
      ]),
    );
    expect(columns).toHaveLength(3);
    expect(endings).toEqual([
      { word: 'gebrochen', rows: 2, isKnown: false, meant: 'breakage' },
      { word: 'breakage', rows: 1, isKnown: true, meant: 'breakage' },
      { word: 'seltsam', rows: 1, isKnown: false, meant: null },
    ]);
  });

  it('are not proposed for numbers where most cells hold none', () => {
    const { columns } = propose(sheetOf('tip,Bilder,why', 'a,viele,broken', 'b,wenige,broken'), NO_MAPPING);
    expect(columns.map(({ role }) => role)).toEqual(expect.arrayContaining(['tip', 'ended']));
    expect(columns.map(({ role }) => role)).not.toContain('images');
  });

  it('are taken as proposed by the enter key, and only what is open is asked of the words', async () => {
    const { mapping, asked } = await answered(LOG, '', '', '', 'chipping');
    expect([...mapping.columns]).toEqual(
      expect.arrayContaining([
        ['tip', 'tip'],
        ['images', 'Bilder'],
        ['ended', 'Grund'],
      ]),
    );
    expect([...mapping.endings]).toEqual([
      ['gebrochen', 'breakage'],
      ['seltsam', 'chipping'],
    ]);
    expect(asked).toHaveLength(4);
    expect(asked[0]).toContain('[Enter: yes; another head; or - for none]');
    expect(asked[2]).toContain('“gebrochen” (2 rows) means');
  });

  it('are asked for again until there is such a head, and such a word', async () => {
    const { mapping, asked } = await answered(LOG, 'nothing', 'bilder', '', 'no word', '', '', 'sound');
    expect(mapping.columns.get('images')).toBe('Bilder');
    expect([...mapping.endings]).toEqual([
      ['gebrochen', 'breakage'],
      ['seltsam', 'sound'],
    ]);
    expect(asked).toHaveLength(7);
  });

  it('are asked for where nothing is like them: what ended a tip, and what counts its use', async () => {
    const sheet = sheetOf('tip,a,b', 't1,4,broken', 't2,6,broken');
    const { mapping, asked } = await answered(sheet, 'B', 'a', 'hours');
    expect([...mapping.columns]).toEqual([
      ['tip', 'tip'],
      ['ended', 'b'],
      ['hours', 'a'],
    ]);
    expect(mapping.endings.size).toBe(0);
    expect(asked[0]).toContain('Which column says what ended a tip? [heads: tip, a, b]');
    const usual = await answered(sheet, '-', 'a', 'miles', '');
    expect([...usual.mapping.columns]).toEqual([
      ['tip', 'tip'],
      ['images', 'a'],
    ]);
  });
});
