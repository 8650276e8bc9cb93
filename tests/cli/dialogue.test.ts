import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inEmptyFolder } from '../support/command.js';
import { onTerminal } from '../support/terminal.js';

describe('on a real terminal', () => {
  it('log asks for what is not given, and writes the row', async () => {
    await inEmptyFolder(async (cwd) => {
      const { code, seen } = await onTerminal(
        ['log', 'tips.csv', '--date', '2031-05-17'],
        [
          ['Which tip ended', 'S-014'],
          ['Of which kind?', ''],
          ['How many images', '42'],
          ['last seen to be sound?', '40'],
          ['What ended it?', 'broken'],
        ],
        cwd,
      );
      expect(code, seen).toBe(0);
      expect(seen).toContain('tips.csv: 1 tip');
      expect(readFileSync(join(cwd, 'tips.csv'), 'utf8').split('\n')[1]).toBe('S-014,,42,,,40,,broken,2031-05-17');
    });
  });

  it('log does not ask for the day where the log has no column for it', async () => {
    await inEmptyFolder(async (cwd) => {
      writeFileSync(join(cwd, 'own.csv'), 'tip,images,ended\nA,12,broken\n');
      const dialogue = [
        ['Which tip ended', 'B'],
        ['Of which kind?', ''],
        ['How many images', '9'],
        ['last seen to be sound?', ''],
        ['What ended it?', 'ok'],
      ] as const;
      const { code, seen } = await onTerminal(['log', 'own.csv'], dialogue, cwd);
      expect(code, seen).toBe(0);
      expect(readFileSync(join(cwd, 'own.csv'), 'utf8')).toBe('tip,images,ended\nA,12,broken\nB,9,ok\n');
    });
  });

  it('fit --map asks what the lab’s words mean, asks again after nonsense, and writes the mapping', async () => {
    await inEmptyFolder(async (cwd) => {
      writeFileSync(join(cwd, 'tips.csv'), 'tip,images,ended\nA,12,lever broke\nB,30,zapped\nC,9,ok\n');
      const { code, seen } = await onTerminal(
        ['fit', 'tips.csv', '--map'],
        [
          ['“lever broke” (1 row) means', ''],
          ['“zapped” (1 row) means', 'lightning'],
          ['“zapped” (1 row) means', 'breakage'],
        ],
        cwd,
      );
      expect(code, seen).toBe(0);
      const mapping = readFileSync(join(cwd, 'tips.csv.map.yaml'), 'utf8');
      expect(mapping).toContain('lever broke: breakage');
      expect(mapping).toContain('zapped: breakage');
    });
  });
});
