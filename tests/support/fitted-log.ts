import { copyFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type FitOptions, fitLog } from '../../src/studies/fit/fit.js';
import { readLog } from '../../src/studies/fit/read-log.js';
import { fitReport } from '../../src/studies/fit/report.js';
import type { FitSummary } from '../../src/studies/fit/results.js';
import { inEmptyFolder, root } from './command.js';
import { madeLog } from './make-log.js';
import { textsOf } from './report-texts.js';

/** What a log's text comes to, without a bootstrap if nothing else is said. */
export function fittedLog(
  text: string,
  options: Partial<FitOptions> = {},
  kinds: ReadonlyMap<string, string> = new Map(),
): FitSummary {
  const reading = readLog(text, { kind: null, kinds, columns: new Map(), units: new Map(), endings: new Map() });
  if (!reading.ok)
    throw new Error(`the log cannot be read: ${reading.faults.map(({ message }) => message).join('; ')}`);
  return fitLog(reading.log, {
    file: 'log.csv',
    sha256: '0',
    toolVersion: '0',
    seed: '1',
    date: null,
    samples: 0,
    distributions: new Map(),
    units: new Map(),
    unitBefore: () => null,
    priorOf: () => null,
    blunting: [],
    ...options,
  });
}

/** A few lives of one kind, each event exact. */
export const FEW_LIVES = [
  'tip,kind,images,ended',
  ...[7, 9, 12, 15, 15, 18, 21, 24, 30, 33].map((images, i) => `${String(i)},sharp,${String(images)},breakage`),
  ...[5, 10, 20, 40].map((images, i) => `s${String(i)},sharp,${String(images)},sound`),
].join('\n');

/** What the shipped log comes to, with a bootstrap of two samples. */
export function madeFit(): FitSummary {
  return fittedLog(madeLog(), { file: 'tip-log.csv', samples: 2, command: 'swap-or-hop fit tip-log.csv' });
}

export async function fittedPage(summary: FitSummary): Promise<string> {
  return (await textsOf(fitReport, summary)).get('report.html') ?? '';
}

/** A log of ten events and the small scenario, side by side. */
export async function inFolderWithLog(work: (cwd: string) => Promise<void>): Promise<void> {
  await inEmptyFolder(async (cwd) => {
    writeFileSync(join(cwd, 'log.csv'), FEW_LIVES);
    copyFileSync(join(root, 'tests/support/small.yaml'), join(cwd, 'my.yaml'));
    await work(cwd);
  });
}
