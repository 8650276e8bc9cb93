import { describe, expect, it } from 'vitest';
import { withRow } from '../../../src/studies/fit/log-row.js';
import { readRadii } from '../../../src/studies/fit/radii.js';
import { nonEmpty } from '../../support/non-empty.js';

const OPTIONS = {
  kind: null,
  ...{ kinds: new Map<string, string>(), endings: new Map<string, string>() },
  ...{ columns: new Map<never, string>(), units: new Map<never, string>() },
};
const LOG = 'tip;images;ended\na;12;breakage\n';

describe('a row that is added to a log', () => {
  it('goes behind the others in the columns and the separator of the log', () => {
    const row = new Map([
      ['ended', 'chipping'],
      ['tip', 'b'],
      ['images', '7'],
    ] as const);
    expect(withRow(LOG, row, OPTIONS)).toEqual({ ok: true, text: `${LOG}b;7;chipping\n`, rows: 2 });
    expect(withRow(LOG.trimEnd(), row, OPTIONS)).toMatchObject({ ok: true, text: `${LOG}b;7;chipping\n` });
  });

  it('begins a log with all columns where there is none', () => {
    const added = withRow(
      null,
      new Map([
        ['tip', 'a'],
        ['images', '3'],
        ['ended', 'sound'],
      ] as const),
      OPTIONS,
    );
    if (!added.ok) throw new Error(added.messages.join());
    expect(added.text.split('\n')[0]).toBe(
      'tip,kind,images,path [mm],approaches,last sound images,load [nN],ended,date',
    );
    expect(added.text.split('\n')[1]).toBe('a,,3,,,,,sound,');
    expect(added.rows).toBe(1);
  });

  it('has what is usual where it is not given, and only where the log has a column for it', () => {
    const usual = new Map([
      ['images', '1'],
      ['date', '2026-03-14'],
    ] as const);
    const added = withRow(
      LOG,
      new Map([
        ['tip', 'b'],
        ['ended', 'breakage'],
      ] as const),
      OPTIONS,
      usual,
    );
    expect(added).toMatchObject({ ok: true, text: `${LOG}b;1;breakage\n` });
  });

  it('is refused with the reason where a value has no column, the row could not be used, or the log is none', () => {
    expect(withRow(LOG, new Map([['load', '3']] as const), OPTIONS)).toEqual({
      ok: false,
      messages: ['the log has no column for load, so `3` has no place; add one, or say which it is with `fit --map`'],
    });
    // An earlier row that cannot be used is no reason to refuse a new one; that of the new one is told.
    const doubtful = `${LOG}x;many;breakage\n`;
    const good = new Map([
      ['tip', 'b'],
      ['images', '7'],
      ['ended', 'breakage'],
    ] as const);
    expect(withRow(doubtful, good, OPTIONS)).toMatchObject({ ok: true });
    const bad = withRow(doubtful, new Map([...good, ['images', 'seven']] as const), OPTIONS);
    if (bad.ok) throw new Error('it was taken');
    expect(bad.messages).toHaveLength(1);
    expect(bad.messages[0]).toContain('seven');
    const none = withRow('', good, OPTIONS);
    if (none.ok) throw new Error('it was taken');
    for (const message of nonEmpty(none.messages)) expect(message.length).toBeGreaterThan(10);
  });
});

describe('a table of radii', () => {
  const HEAD = 'tip,path [mm],load [nN],radius [nm],error [nm]';
  const known = (tip: string) => (tip === 'a' ? 'sharp' : null);

  it('is read in its units, with decimal commas where a column has them', () => {
    const read = readRadii('tip;path [m];load [nN];radius [nm];error [nm]\na;0,012;2;8,5;1\na;1,250;2;9;1\n', known);
    expect(read).toEqual({
      ok: true,
      faults: [],
      readings: [
        { kind: 'sharp', tip: 'a', path: 12, load: 2, radius: 8.5, error: 1 },
        { kind: 'sharp', tip: 'a', path: 1250, load: 2, radius: 9, error: 1 },
      ],
    });
  });

  it.each([
    ['b,1,2,8,1', /the log knows no tip/u],
    ['a,1,2,0,1', /radius.*more than zero is wanted/u],
    ['a,1,2,8,0', /error.*more than zero is wanted/u],
    [',1,2,8,1', /the tip has no name/u],
    ['a,much,2,8,1', /path/u],
  ])('leaves out a row with its reason: %s', (row, because) => {
    const read = readRadii(`${HEAD}\n${row}\na,0,2,8,1\n`, known);
    if (!read.ok) throw new Error('it was refused');
    expect(read.readings).toHaveLength(1);
    expect(read.faults).toHaveLength(1);
    expect(read.faults[0].message).toMatch(because);
  });

  it('is refused without its columns, each named', () => {
    const read = readRadii('tip,path [mm],radius [nm]\na,1,8\n', known);
    if (read.ok) throw new Error('it was read');
    expect(read.faults.map(({ message }) => /`?(\w+)`?[;]/u.exec(message)?.[1])).toEqual(['load', 'error']);
  });
});
