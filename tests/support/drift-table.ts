import { copyFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { inEmptyFolder, root } from './command.js';
import { driftTable } from './made-drift.js';

export const starter = join(root, 'scenarios/starters/multi-tip.yaml');

/** Fits the table of the folder into its scenario. */
export const INTO = ['fit', '--drift', 'readings.csv', '--into', 'my.yaml'];

/** A table of drift and a starter, side by side. */
export async function inFolderWithTable(work: (cwd: string) => Promise<void>): Promise<void> {
  await inEmptyFolder(async (cwd) => {
    writeFileSync(join(cwd, 'readings.csv'), `${driftTable('displacement')}\n`);
    copyFileSync(starter, join(cwd, 'my.yaml'));
    await work(cwd);
  });
}
