import { expect, it } from 'vitest';
import { textTable } from '../../src/report/table.js';

it('has columns of one width in plain text, however many rows there are', () => {
  const rows = Array.from({ length: 200_000 }, (_, row) => [String(row), 'off']);
  rows[7][1] = 'engaged';
  const lines = textTable({ columns: [{ label: 'Event', numeric: true }, { label: 'Tip' }], rows }).split('\n');
  expect(lines).toHaveLength(200_001);
  expect(lines.slice(0, 2)).toEqual([' Event  Tip', '     0  off']);
  expect(lines[8]).toBe('     7  engaged');
  expect(lines.at(-1)).toBe('199999  off');
});
