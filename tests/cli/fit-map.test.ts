import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readSheet } from '../../src/analysis/sheet.js';
import { layOut } from '../../src/studies/fit/layout.js';
import type { Role } from '../../src/studies/fit/heads.js';
import { askMapping } from '../../src/studies/fit/map.js';
import { mappingText, NO_MAPPING, readMapping } from '../../src/studies/fit/mapping.js';
import { propose } from '../../src/studies/fit/propose.js';
import { knownHeads } from '../../src/studies/fit/read-log.js';
import { inEmptyFolder, swapOrHop } from '../support/command.js';
import { madeWorkbook } from '../support/make-workbook.js';

const LOG = [
  ['needle', 'frames taken', 'what happened'],
  ['N1', 12, 'lever broke'],
  ['N2', 30, 'lever broke'],
  ['N3', 45, 'picked up polymer'],
  ['N4', 20, 'zapped'],
  ['N5', 60, 'changed sample'],
  ['N6', 60, 'ok'],
] as const;
const TEXT = LOG.map((row) => row.join(',')).join('\n');

function table() {
  const sheet = readSheet(TEXT);
  if (!sheet.ok) throw new Error('no table');
  return sheet.sheet;
}

describe('fit --map', () => {
  it('proposes what columns hold and what the lab’s words mean', () => {
    const { columns, endings } = propose(table());
    expect(columns.map(({ role, head }) => [role, head])).toEqual([
      ['tip', 'needle'],
      ['images', 'frames taken'],
      ['ended', 'what happened'],
    ]);
    expect(endings.map(({ word, rows, meant }) => [word, rows, meant])).toEqual([
      ['lever broke', 2, 'breakage'],
      ['picked up polymer', 1, 'fouling'],
      ['zapped', 1, null],
      ['changed sample', 1, 'sound'],
      ['ok', 1, 'sound'],
    ]);
  });

  it('finds heads of which it knows none below a title', () => {
    const sheet = readSheet('Nadeln am Platz 2\n\nNadel,Zahl,Befund\nN1,12,gebrochen');
    const laid = sheet.ok ? layOut(sheet.sheet, knownHeads(new Map())) : sheet;
    expect(laid.ok && laid.layout.head.cells.map(({ text }) => text)).toEqual(['Nadel', 'Zahl', 'Befund']);
  });

  it('asks for all that is not plain, and takes Enter for what it proposes', async () => {
    const asked: string[] = [];
    const answers = ['', '', '', '', '', 'nonsense', 'suspicion', ''];
    const mapping = await askMapping(NO_MAPPING, table(), propose(table()), (question) => {
      asked.push(question);
      return Promise.resolve(answers[asked.length - 1]);
    });
    expect(asked[3]).toMatch(/“lever broke” \(2 rows\) means \[.*Enter: breakage\]/u);
    expect(asked[6]).toMatch(/^`nonsense` is none of these. “zapped” \(1 row\) means \[/u);
    expect([...mapping.columns]).toEqual([
      ['tip', 'needle'],
      ['images', 'frames taken'],
      ['ended', 'what happened'],
    ]);
    expect([...mapping.endings]).toEqual([
      ['lever broke', 'breakage'],
      ['picked up polymer', 'fouling'],
      ['zapped', 'suspicion'],
      ['changed sample', 'sound'],
    ]);
    expect(readMapping(mappingText('tips.csv', mapping))).toEqual({ ok: true, mapping });
  });

  it('asks only for words that are new since it was answered', async () => {
    const before = {
      ...NO_MAPPING,
      kind: 'sharp',
      columns: new Map<Role, string>([
        ['images', 'frames taken'],
        ['ended', 'what happened'],
        ['tip', 'needle'],
      ]),
      endings: new Map([
        ['lever broke', 'breakage'],
        ['Picked up polymer', 'fouling'],
        ['changed sample', 'sound'],
      ]),
    };
    const asked: string[] = [];
    const mapping = await askMapping(before, table(), propose(table(), before), (question) => {
      asked.push(question);
      return Promise.resolve('suspicion');
    });
    expect(asked).toEqual([expect.stringMatching(/^“zapped” \(1 row\) means/u)]);
    expect([...mapping.endings]).toEqual([...before.endings, ['zapped', 'suspicion']]);
    expect(mapping.kind).toBe('sharp');
  });

  it('prints its proposal and stops with exit 2 where there is no terminal; saved and put right, it is used from then on', async () => {
    await inEmptyFolder(async (cwd) => {
      writeFileSync(join(cwd, 'tips.xlsx'), madeWorkbook({ Tips: LOG, Prices: [['sharp', 25]] }));
      const refused = await swapOrHop(['fit', 'tips.xlsx', '--bootstrap', '0', '--sheet', 'Tips'], { cwd });
      expect(refused.code).toBe(2);
      expect(refused.stderr).toContain('--map');
      const mapped = await swapOrHop(['fit', 'tips.xlsx', '--map', '--sheet', 'Tips'], { cwd });
      expect(mapped.code).toBe(2);
      expect(mapped.stderr).toContain('above all 1 word with `?`, and save it as tips.xlsx.map.yaml');
      expect(mapped.stdout).toContain('zapped: "?"');
      writeFileSync(join(cwd, 'tips.xlsx.map.yaml'), mapped.stdout);
      const open = await swapOrHop(['fit', 'tips.xlsx', '--bootstrap', '0'], { cwd });
      expect(open.code).toBe(2);
      expect(open.stderr).toContain('say what `zapped` means');
      writeFileSync(join(cwd, 'tips.xlsx.map.yaml'), mapped.stdout.replace('zapped: "?"', 'zapped: breakage'));
      const fitted = await swapOrHop(['fit', 'tips.xlsx', '--bootstrap', '0'], { cwd });
      expect(fitted.stderr).toContain('read as tips.xlsx.map.yaml says');
      expect(fitted.stderr).toContain('6 rows: 6 used, 0 left out, 0 faulty');
      expect(fitted.code).toBe(0);
      const summary = readFileSync(join(cwd, 'reports/tips-fit/summary.json'), 'utf8');
      expect(summary).toContain('"option": "mapping"');
      const verified = await swapOrHop(['verify', 'reports/tips-fit/summary.json'], { cwd });
      expect(verified.stderr + verified.stdout).toContain('same');
      expect(verified.code).toBe(0);
    });
  });
});

describe('a mapping', () => {
  it('is refused where it names what a log does not have, or an ending nobody knows', () => {
    const reading = readMapping('columns: { nail: needle }\nendings: { zapped: lightning }\n');
    expect(reading.ok ? [] : reading.messages).toEqual([
      'columns.nail: nothing of a log is called `nail`',
      'endings: `zapped` is to mean `lightning`; one of breakage, chipping, fouling, coating, worn-out, double-tip, sound, suspicion is wanted',
    ]);
    expect(readMapping('endings: [').ok).toBe(false);
  });
});
