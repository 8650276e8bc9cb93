import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from 'vitest';
import { compare } from '../../src/studies/compare/compare.js';
import { terminalText } from '../../src/studies/compare/terminal.js';
import { root } from './command.js';
import { loadedOf } from './run.js';

const MOST_WORDS = 60;
const MOST_LINES = 25;

/** What is compared within two seconds; the others wait for the long tests. */
export const QUICK: readonly string[] = ['three-films.yaml'];
export const SHIPPED = readdirSync(join(root, 'scenarios')).filter((file) => file.endsWith('.yaml'));

/** Holds the verdict of a shipped scenario to what a reader takes in at a glance. */
export function holdVerdict(file: string): void {
  const loaded = loadedOf(readFileSync(join(root, 'scenarios', file), 'utf8'));
  const options = { file, sha256: '', toolVersion: '0', replications: 60, draws: 10 };
  const { summary } = compare(loaded, options);
  const { headline, inconclusive } = summary.verdict;
  const block = [...headline, inconclusive ?? ''].join(' ').trim();
  expect(headline.length).toBeGreaterThan(0);
  expect(block.split(/\s+/u).length).toBeLessThanOrEqual(MOST_WORDS);
  expect(block).not.toMatch(/\w\.\w+\.\w/u);
  const text = terminalText({ ...summary, warnings: [] });
  expect(text.trimEnd().split('\n').length).toBeLessThanOrEqual(MOST_LINES);
  expect(terminalText(summary, undefined, undefined, true)).toContain(text.slice(0, 200));
}
