import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { faultIn, withRow } from '../../src/studies/fit/log-row.js';
import { scanFaultIn } from '../../src/studies/midway/scan-log.js';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';

const PLAIN = { kind: null, kinds: new Map(), columns: new Map(), units: new Map(), endings: new Map() };
const END = ['--tip', 'S-1', '--images', '42', '--sound', '41', '--ended', 'broken', '--date', '2031-05-17'];

describe('log', () => {
  it('begins a log that fit reads, and adds a row a tip', async () => {
    await inEmptyFolder(async (cwd) => {
      const path = join(cwd, 'tips.csv');
      expect((await swapOrHop(['log', 'tips.csv', ...END], { cwd })).code).toBe(0);
      const more = ['log', 'tips.csv', '--tip', 'S-2', '--images', '30', '--ended', 'sound', '--date', '2031-05-18'];
      expect((await swapOrHop(more, { cwd })).stderr).toContain('tips.csv: 2 tips; next:  swap-or-hop fit tips.csv');
      expect(readFileSync(path, 'utf8')).toBe(
        'tip,kind,images,path [mm],approaches,last sound images,load [nN],ended,date\n' +
          'S-1,,42,,,41,,broken,2031-05-17\nS-2,,30,,,,,sound,2031-05-18\n',
      );
      expect((await swapOrHop(['fit', 'tips.csv', '--bootstrap', '0'], { cwd })).stderr).toContain('2 rows: 2 used');
      const twice = await swapOrHop(['log', 'tips.csv', ...END], { cwd });
      expect(twice.code).toBe(2);
      expect(twice.stderr).toContain('is a duplicate of line 2');
      const asked = await swapOrHop(['log', 'tips.csv', '--tip', 'S-3'], { cwd });
      expect(asked.code).toBe(2);
      expect(asked.stderr).toContain('--images, --ended wanted');
      expect(readFileSync(path, 'utf8').split('\n')).toHaveLength(4);
    });
  });

  it('writes into the columns and with the words of a log of the lab’s own', async () => {
    await inEmptyFolder(async (cwd) => {
      writeFileSync(join(cwd, 'own.csv'), 'Spitze;Bilder;Grund\nA;12;gebrochen');
      writeFileSync(
        join(cwd, 'own.csv.map.yaml'),
        'columns: { tip: Spitze, images: Bilder, ended: Grund }\nendings: { gebrochen: breakage }\n',
      );
      const row = ['--tip', 'B', '--images', '9', '--ended', 'gebrochen'];
      const dated = await swapOrHop(['log', 'own.csv', ...row, '--date', '2031-05-17'], { cwd });
      expect(dated.stderr).toContain('the log has no column for date');
      expect((await swapOrHop(['log', 'own.csv', ...row], { cwd })).code).toBe(0);
      expect(readFileSync(join(cwd, 'own.csv'), 'utf8')).toBe('Spitze;Bilder;Grund\nA;12;gebrochen\nB;9;gebrochen\n');
    });
  });

  it('writes down scans, of which midway takes how the campaign stands', async () => {
    await inEmptyFolder(async (cwd) => {
      const scan = (...typed: readonly string[]) => swapOrHop(['log', 'scans.csv', ...typed], { cwd });
      const first = await scan(
        '--image',
        'region 1: overview',
        '--tip',
        'S-1',
        '--outcome',
        'kept',
        '--time',
        'Tu 09:40',
      );
      expect(first.stderr).toContain('scans.csv: 1 scan; next:  swap-or-hop midway SCENARIO --done scans.csv');
      expect((await scan('--image', '2', '--outcome', 'flagged', '--time', 'Tu 09:55')).code).toBe(0);
      const args = [
        'midway',
        join(root, 'scenarios/ambient-islands.yaml'),
        '--done',
        'scans.csv',
        '--replications',
        '40',
      ];
      const { code, stdout, stderr } = await swapOrHop(args, { cwd });
      expect(code, stderr).toBe(0);
      expect(stdout).toContain('The 39 images that are left');
      expect(readFileSync(join(cwd, 'reports/ambient-islands-midway/run-sheet.html'), 'utf8')).toContain(
        '<th scope="col">outcome</th>',
      );
    });
  });

  it('refuses a row below a sum, which would make a tip of it, unless the sum says what it is', () => {
    const row = new Map([
      ['tip', 'S-9'],
      ['images', '3'],
      ['ended', 'broken'],
    ] as const);
    const rows = 'tip,images,ended\nA,12,broken\nB,30,\nC,45,broken\nD,7,broken\n';
    const refused = withRow(`${rows},94,\n`, row, PLAIN);
    expect(refused.ok ? [] : refused.messages).toEqual([
      'the log ends with a sum of the rows above, which below another row would be a tip; take it out first',
    ]);
    expect(withRow(`${rows}Total,94,\n`, row, PLAIN).ok).toBe(true);
  });

  it('says of each answer by itself what is wrong with it', () => {
    expect(faultIn('images', 'many', PLAIN)).toBe('read `many`; a number is wanted');
    expect(faultIn('ended', 'lever broke', PLAIN)).toContain('as what ended the tip');
    expect(faultIn('ended', 'lever broke', { ...PLAIN, endings: new Map([['Lever broke', 'breakage']]) })).toBeNull();
    expect(faultIn('sound-images', '41', PLAIN)).toBeNull();
    expect(scanFaultIn('outcome', 'nonsense')).toContain('nonsense');
  });

  it('refuses a row that could not be read, with the reason, and quotes what needs it', () => {
    const refused = withRow(
      null,
      new Map([
        ['tip', 'S-1'],
        ['images', 'many'],
        ['ended', 'broken'],
      ]),
      PLAIN,
    );
    expect(refused).toMatchObject({ ok: false });
    const quoted = withRow(
      null,
      new Map([
        ['tip', 'S, "1"'],
        ['images', '3'],
        ['ended', 'broken'],
      ]),
      PLAIN,
    );
    expect(quoted.ok && quoted.text.split('\n')[1]).toBe('"S, ""1""",,3,,,,,broken,');
  });
});
