import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { cellName, isWorkbook, readWorkbook } from '../../src/cli/workbook.js';
import { madeWorkbook } from '../support/make-workbook.js';

describe('a workbook', () => {
  it('gives what its cells show: dates, formulas’ results, leading zeros, signs, and the places of all', async () => {
    const bytes = madeWorkbook({
      Tips: [
        [],
        ['Tip', 'Path [µm]', 'Date', 'Sum'],
        ['007', 12.5, new Date(Date.UTC(2031, 2, 14)), { formula: 'B3*2', value: 25 }],
      ],
      Empty: [],
    });
    expect(isWorkbook(bytes)).toBe(true);
    const sheets = await readWorkbook('tips.xlsx', bytes);
    expect(sheets.map(({ name }) => name)).toEqual(['Tips']);
    expect(sheets[0].rows.map(({ cells }) => cells.map(({ text }) => text))).toEqual([
      ['Tip', 'Path [µm]', 'Date', 'Sum'],
      ['007', '12.5', '2031-03-14', '25'],
    ]);
    expect(sheets[0].rows[1].cells[2].place).toEqual({ line: 3, column: 3 });
  });

  it('names cells as a spreadsheet does', () => {
    expect(cellName('Tips', { line: 14, column: 3 })).toBe('Tips!C14');
    expect(cellName('Tips', { line: 1, column: 28 })).toBe('Tips!AB1');
  });

  it('is refused before it is unpacked where it would come to more than 50 MB', async () => {
    const bomb = zipSync({ 'xl/workbook.xml': strToU8(' '.repeat(51_000_000)) });
    expect(bomb.length).toBeLessThan(1_000_000);
    await expect(readWorkbook('bomb.xlsx', bomb)).rejects.toThrow(/unpacked the workbook has 51 MB; at most 50 MB/u);
  });

  it('is refused in plain words where it is none', async () => {
    const cut = madeWorkbook({ Tips: [['Tip']] }).slice(0, 200);
    await expect(readWorkbook('cut.xlsx', cut)).rejects.toThrow(/cannot be read as an \.xlsx workbook/u);
    const other = zipSync({ 'readme.txt': strToU8('no workbook') });
    await expect(readWorkbook('other.xlsx', other)).rejects.toThrow(/cannot be read as an \.xlsx workbook/u);
  });
});
