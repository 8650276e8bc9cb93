import { describe, expect, it } from 'vitest';
import { loadScenario } from '../../src/scenario/load.js';
import { perhapsNone } from '../support/non-empty.js';

/** Characters of a scenario file at most. */
const MOST = 999_000;

const repeated = (part: string, length = MOST) => part.repeat(Math.floor(length / part.length));
const numbered = (part: (i: number) => string, length = MOST) =>
  Array.from({ length: Math.floor(length / part(99_999).length) }, (_, i) => part(i)).join('');

const SOUND =
  'title: x\nplan: { regions: 1, passes: [{ name: a, tip: s, size: 1 um }] }\nstrategies: [{ name: a, workflow: swap }]\n';
const TIPS = 'tips: { s: {} }\n';

/** Files that were found, or are known, to keep a reader busy; each as large as a scenario may be, or as says most in words. */
const BUSY: Readonly<Record<string, string>> = {
  'a map of a hundred thousand keys': numbered((i) => `k${String(i)}: 1\n`),
  'the same key a hundred thousand times': repeated('a: 1\n'),
  'a tab for an indent in every line': repeated('a:\n\tb: 1\n'),
  'a list of a hundred thousand numbers': repeated('- 1\n'),
  'a list in brackets': `[${repeated('1,')}]`,
  'anchors without end': numbered((i) => `- &a${String(i)} 1\n`),
  'aliases of one list': `a: &a [1]\nb:\n${repeated('- *a\n')}`,
  'nothing but quotes': repeated('"', 29_000),
  'directives without end': repeated('%Y 1\n', 45_000),
  'documents without end': repeated('---\n'),
  'one long line': `title: ${repeated('x')}`,
  'one long number': `${SOUND}${TIPS}instruments: ${repeated('9')}`,
  'hours without end': `${SOUND}${TIPS}bookings: { hours: "${repeated('Mo 09:00-10:00;', 990_000)}Mo 09:00-10:00" }`,
  'fifteen hundred strategies': `title: x\nplan: { regions: 1, passes: [{ name: a, tip: s, size: 1 um }] }\n${TIPS}strategies:\n${numbered((i) => `- {name: a${String(i)}, workflow: swap}\n`, 40_000)}`,
  'two thousand kinds of tips': `${SOUND}tips:\n  s: {}\n${numbered((i) => `  k${String(i)}: {}\n`, 30_000)}`,
  'a thousand hazards': `${SOUND}tips:\n  s:\n    hazards:\n${repeated('    - {cause: breakage, per: image, life: {distribution: probability, perUnit: 0.1}}\n', 50_000)}`,
  'a thousand paths that lead nowhere': `${SOUND}${TIPS}ranges:\n${numbered((i) => `  plan.passes.a.k${String(i)}: [1, 2]\n`, 50_000)}`,
};

/** Processor seconds; a machine at rest takes less than half. */
const MOST_SECONDS = 2;

describe('a file made to keep its reader busy', () => {
  it.each(Object.entries(BUSY))('is refused within two seconds, with a place: %s', (_, text) => {
    const before = process.cpuUsage();
    const loaded = loadScenario(text);
    const { user, system } = process.cpuUsage(before);
    expect((user + system) / 1e6).toBeLessThan(MOST_SECONDS);
    const faults = loaded.ok ? [] : loaded.faults;
    expect(loaded.ok || faults.length).not.toBe(0);
    expect(faults.length).toBeLessThanOrEqual(100);
    for (const { line, column } of perhapsNone(faults)) expect(line >= 1 && column >= 1).toBe(true);
  });
});
