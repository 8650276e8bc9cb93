/**
 * Changes the code a little, again and again, to see whether a test that belongs to its folder notices:
 *
 *     npm run mutate [-- FOLDER…] [--files FILE…] [--share SHARE --seed SEED]
 *
 * FOLDER is one of those in folders.js; all of them unless named. FILE is a part of a path below it, to mutate less. SHARE, between 0 and
 * 1, tries a random sample of the changes, drawn with SEED. Survivors are printed, and written to coverage/mutation/FOLDER.json.
 * Takes from minutes for the kernel to hours for campaigns; advisory, so nothing fails. What is known of the survivors stands
 * in RECORD.md.
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { Stryker } from '@stryker-mutator/core';
import { FOLDERS } from './folders.js';
import { isSampled } from './sample.js';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    files: { type: 'string', multiple: true, default: [] },
    share: { type: 'string', default: '1' },
    seed: { type: 'string', default: '1' },
  },
});
const unknown = positionals.filter((folder) => !(folder in FOLDERS));
if (unknown.length > 0) {
  console.error(`There is no ${unknown.join(', ')}; give any of ${Object.keys(FOLDERS).join(', ')}`);
  process.exit(2);
}
process.chdir(fileURLToPath(new URL('../..', import.meta.url)));
// Read by vitest.config.ts and sample.js, in the processes that Stryker starts.
process.env.MUTATION_SHARE = values.share;
process.env.MUTATION_SEED = values.seed;

for (const folder of positionals.length === 0 ? Object.keys(FOLDERS) : positionals) {
  const { changed, tests } = FOLDERS[folder];
  process.env.MUTATION_TESTS = JSON.stringify(tests);
  const report = `coverage/mutation/${folder}.json`;
  await new Stryker({
    testRunner: 'vitest',
    vitest: { configFile: 'tests/mutation/vitest.config.ts', related: false },
    mutate: values.files.length === 0 ? changed : changed.flatMap((pattern) => within(pattern)),
    ignorePatterns: ['reports', 'coverage'],
    plugins: ['@stryker-mutator/*', new URL('sample.js', import.meta.url).href],
    checkers: ['sample'],
    coverageAnalysis: 'perTest',
    // What runs only while modules load has run before a mutant is switched on; no test could notice it.
    ignoreStatic: true,
    concurrency: 1,
    dryRunTimeoutMinutes: 60,
    timeoutMS: 10_000,
    timeoutFactor: 3,
    tempDirName: 'coverage/mutation/tmp',
    reporters: ['progress-append-only', 'json'],
    jsonReporter: { fileName: report },
    warnings: { slow: false },
  }).runMutationTest();
  console.log(account(folder, JSON.parse(readFileSync(report, 'utf8')).files));
}

/** A pattern narrowed to the files that are asked for; one that excludes stays as it is. */
function within(pattern) {
  if (pattern.startsWith('!')) return [pattern];
  return values.files.map((file) => pattern.replace('*.ts', `${file}*.ts`));
}

/** What became of the changes in the sample: the survivors one by one, and a row for RECORD.md. */
function account(folder, files) {
  const tried = Object.entries(files).flatMap(([fileName, { mutants, source }]) =>
    mutants
      .filter((mutant) => mutant.status !== 'Ignored' && isSampled(mutant))
      .map((mutant) => ({ ...mutant, fileName, source })),
  );
  const count = (...states) => tried.filter(({ status }) => states.includes(status)).length;
  const left = tried.filter(({ status }) => status === 'Survived' || status === 'NoCoverage');
  const noticed = count('Killed', 'RuntimeError');
  const score = (100 * (noticed + count('Timeout'))) / tried.length;
  const row = [
    folder,
    tried.length,
    noticed,
    count('Timeout'),
    count('Survived'),
    count('NoCoverage'),
    `${score.toFixed(1)} %`,
  ];
  return [...left.map(told), `| ${row.join(' | ')} |`].join('\n');
}

function told({ fileName, source, location: { start, end }, replacement, mutatorName, status }) {
  const lines = source.split('\n').slice(start.line - 1, end.line);
  lines[lines.length - 1] = lines[lines.length - 1].slice(0, end.column - 1);
  lines[0] = lines[0].slice(start.column - 1);
  return `${status} ${fileName}:${start.line}:${start.column} ${mutatorName}\n- ${lines.join('\n  ')}\n+ ${replacement}\n`;
}
