import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { loadScenario } from '../../src/scenario/load.js';
import { compare } from '../../src/study/compare.js';
import { root } from '../support/command.js';

/** Of four strategies each has its own difference from the first. */
const MOST_WORDS = { upToThree: 60, four: 90 };
const shipped = readdirSync(join(root, 'scenarios')).filter((file) => file.endsWith('.yaml'));

it.each(shipped)('the answer of %s at a glance is short, and names no path of a value', (file) => {
  const loaded = loadScenario(readFileSync(join(root, 'scenarios', file), 'utf8'));
  if (!loaded.ok) throw new Error('does not load');
  const options = { file, sha256: '', toolVersion: '0', replications: 20, draws: 10 };
  const { strategies, verdict } = compare(loaded.scenario, options).summary;
  const { glance } = verdict;
  expect(glance.length).toBeGreaterThan(0);
  expect(glance.join(' ').split(/\s+/u).length).toBeLessThanOrEqual(
    strategies.length > 3 ? MOST_WORDS.four : MOST_WORDS.upToThree,
  );
  expect(glance.join(' ')).not.toMatch(/\w\.\w+\.\w/u);
});
