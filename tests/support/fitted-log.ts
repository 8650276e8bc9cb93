import { type FitOptions, fitLog } from '../../src/study/fit/fit.js';
import { readLog } from '../../src/study/fit/read-log.js';
import type { FitSummary } from '../../src/study/fit/results.js';

/** What a log's text comes to, without a bootstrap if nothing else is said. */
export function fittedLog(text: string, options: Partial<FitOptions> = {}): FitSummary {
  const reading = readLog(text, { kind: null, kinds: new Map(), columns: new Map(), units: new Map() });
  if (!reading.ok)
    throw new Error(`the log cannot be read: ${reading.faults.map(({ message }) => message).join('; ')}`);
  return fitLog(reading.log, {
    file: 'log.csv',
    sha256: '0',
    toolVersion: '0',
    seed: '1',
    date: null,
    samples: 0,
    laws: new Map(),
    units: new Map(),
    unitBefore: () => null,
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
