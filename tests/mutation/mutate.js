/**
 * Changes the code a little, again and again, to see whether a test that mirrors its folder notices:
 *
 *     npm run mutate [-- FOLDER…] [--files FILE…]
 *
 * FOLDER is kernel, chance, probe or campaign; all of them unless named. FILE is a part of a path below it, to mutate less. Survivors are
 * printed, and written to coverage/mutation/FOLDER.json. Takes from minutes for the kernel to hours for campaigns; advisory, so
 * nothing fails. What is known of the survivors stands in RECORD.md.
 */
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { Stryker } from '@stryker-mutator/core';

const FOLDERS = ['kernel', 'chance', 'probe', 'campaign'];
const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { files: { type: 'string', multiple: true, default: [] } },
});
const unknown = positionals.filter((folder) => !FOLDERS.includes(folder));
if (unknown.length > 0) {
  console.error(`There is no ${unknown.join(', ')}; give any of ${FOLDERS.join(', ')}`);
  process.exit(2);
}
process.chdir(fileURLToPath(new URL('../..', import.meta.url)));

for (const folder of positionals.length === 0 ? FOLDERS : positionals) {
  // Read by vitest.config.ts, in the processes that Stryker starts.
  process.env.MUTATED = folder;
  const mutate =
    values.files.length === 0 ? [`src/${folder}/**/*.ts`] : values.files.map((file) => `src/${folder}/**/${file}*.ts`);
  await new Stryker({
    testRunner: 'vitest',
    vitest: { configFile: 'tests/mutation/vitest.config.ts', related: false },
    mutate,
    ignorePatterns: ['reports', 'coverage'],
    coverageAnalysis: 'perTest',
    // What runs only while modules load has run before a mutant is switched on; no test could notice it.
    ignoreStatic: true,
    concurrency: 1,
    dryRunTimeoutMinutes: 60,
    timeoutMS: 20_000,
    timeoutFactor: 3,
    tempDirName: 'coverage/mutation/tmp',
    reporters: ['clear-text', 'progress-append-only', 'json'],
    jsonReporter: { fileName: `coverage/mutation/${folder}.json` },
    clearTextReporter: { allowColor: false, allowEmojis: false, logTests: false, reportTests: false },
    thresholds: { high: 85, low: 70, break: null },
    warnings: { slow: false },
  }).runMutationTest();
}
