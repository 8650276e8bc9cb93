import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { swapOrHop } from '../support/command.js';
import { INTO, inFolderWithTable, starter } from '../support/drift-table.js';
import { driftTable } from '../support/made-drift.js';

const read = (...path: string[]) => readFileSync(join(...path), 'utf8');

describe('fit --drift', () => {
  it('refuses a table with rows that cannot be used, each with its place, unless they are to be left out, which it says first', async () => {
    await inFolderWithTable(async (cwd) => {
      writeFileSync(join(cwd, 'readings.csv'), `${driftTable('displacement')}\nz,knock,60,1\nz,move,soon,1\n`);
      const refused = await swapOrHop(INTO, { cwd });
      expect(refused).toMatchObject({ code: 2, stdout: '' });
      expect(refused.stderr).toContain('readings.csv:222:3  error  read `knock` as what disturbed');
      expect(refused.stderr).toContain('readings.csv:223:8  error  `time [s]`: read `soon`');
      expect(refused.stderr).toMatch(/2 rows of 222 in readings\.csv cannot be used; nothing was .* --skip/);
      expect(read(cwd, 'my.yaml')).toBe(read(starter));
      expect(existsSync(join(cwd, 'reports'))).toBe(false);
      const left = await swapOrHop([...INTO, '--skip'], { cwd });
      expect(left.code).toBe(0);
      expect(left.stdout.replaceAll('\n', ' ')).toContain(
        '2 of 222 rows of the table are left out, as asked by --skip',
      );
    });
  });

  it.each([
    [
      'an option of logs',
      ['--per', 'breakage=image'],
      '--per is of a log of tips; with --drift the file is a table of drift',
    ],
    ['a time that is none', ['--settling', 'soon'], '--settling: read `soon`'],
    ['a time below zero', ['--settling=-5 min'], '--settling wants a time that is not below zero'],
    ['a workflow that there is not', ['--workflow', 'hope'], 'hope'],
    ['a column that there is not', ['--column', 'time=tme'], 'no column has this head'],
  ])('refuses %s, and leaves the scenario as it was', async (_, args, message) => {
    await inFolderWithTable(async (cwd) => {
      const outcome = await swapOrHop([...INTO, ...args], { cwd });
      expect(outcome).toMatchObject({ code: 2, stdout: '' });
      expect(outcome.stderr).toContain(message);
      expect(read(cwd, 'my.yaml')).toBe(read(starter));
      expect(existsSync(join(cwd, 'reports'))).toBe(false);
    });
  });

  it('writes nothing into a scenario where nothing can be fitted, and without one a report that says why', async () => {
    await inFolderWithTable(async (cwd) => {
      writeFileSync(join(cwd, 'readings.csv'), 'id,time [s],rate [nm/s]\n1,60,1\n1,600,0.4\n2,60,2\n');
      const refused = await swapOrHop(INTO, { cwd });
      expect(refused).toMatchObject({ code: 2, stdout: '' });
      expect(refused.stderr).toContain('nothing could be fitted');
      expect(read(cwd, 'my.yaml')).toBe(read(starter));
      const outcome = await swapOrHop(['fit', 'readings.csv', '--drift'], { cwd });
      expect(outcome.code).toBe(0);
      expect(outcome.stdout.replaceAll('\n', ' ')).toContain('three disturbances at least are wanted');
    });
  });

  it('is wanted by its options', async () => {
    await inFolderWithTable(async (cwd) => {
      const outcome = await swapOrHop(['fit', 'readings.csv', '--settling', '5 min'], { cwd });
      expect(outcome).toMatchObject({ code: 2, stdout: '' });
      expect(outcome.stderr).toContain('--settling wants --drift');
    });
  });
});
