import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';

/** Ends a line, and begins one that reads as if this program had written it. */
const FORGING = 'x\nerror  forged\rerror  forged';
const small = join(root, 'tests/support/small.yaml');
const cell = `"${FORGING}"`;

/** Files whose every name that may hold an end of a line does. */
const FILES: Readonly<Record<string, string>> = {
  'keys.yaml': JSON.stringify({
    [FORGING]: 1,
    title: FORGING,
    plan: { regions: 1, passes: [{ name: FORGING, tip: FORGING, size: FORGING }] },
    tips: { [FORGING]: { hazards: [{ cause: FORGING }], [FORGING]: 1 } },
    strategies: [{ name: 'a', workflow: 'swap', set: { [FORGING]: 1 } }],
    sources: { [FORGING]: FORGING },
    ranges: { [FORGING]: [1, 2] },
  }),
  'log.csv': [
    `tip,kind,images,ended,${cell}`,
    ...[3, 5, 8, 9].map((images) => `${cell},${cell},${String(images)},broken,1`),
    `${cell},${cell},${cell},${cell},1`,
    `${cell},${cell},7,${cell},1`,
  ].join('\n'),
  'drift.csv': [
    `disturbance,kind,time [s],rate [nm/s],${cell}`,
    ...[1, 2, 3].map((time) => `${cell},move,${String(time)},1,1`),
    `${cell},${cell},4,${cell},1`,
  ].join('\n'),
  'summary.json': JSON.stringify({
    ...{ format: 'swap-or-hop summary', formatVersion: 2, stopping: { rule: FORGING } },
    tool: { version: FORGING, commit: FORGING },
    command: `swap-or-hop compare ${FORGING} '${FORGING}'`,
    platform: { system: FORGING, architecture: FORGING, node: FORGING },
    inputs: [{ option: 'file', file: FORGING, sha256: FORGING }],
  }),
};

const COMMANDS: readonly (readonly string[])[] = [
  ['preview', `${FORGING}.yaml`],
  ['preview', 'keys.yaml'],
  ['fit', 'log.csv', '--bootstrap', '0'],
  ['fit', 'log.csv', '--into', small, '--tip', `${FORGING}=${FORGING}`, '--column', `${FORGING}=${FORGING}`],
  ['fit', 'drift.csv', '--drift', '--skip'],
  ['verify', 'summary.json'],
  ['compare', small, FORGING, `--${FORGING}`],
  ['compare', small, '--replications', '2', '--out', FORGING],
  ['sweep', small, '--vary', `${FORGING}=${FORGING}`, '--out', FORGING],
];

it.each(COMMANDS)('no name makes a line of its own on a terminal: %s %j', async (...args) => {
  await inEmptyFolder(async (cwd) => {
    for (const [name, text] of Object.entries(FILES)) writeFileSync(join(cwd, name), text);
    const { stdout, stderr } = await swapOrHop(args, { cwd });
    expect(stderr).toContain('forged');
    expect(stdout + stderr).not.toMatch(/^\s*(?:error {2})?(?:error|warning|not used)\s+forged|\r/mu);
  });
});
