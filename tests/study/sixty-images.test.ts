import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { loadScenario } from '../../src/scenario/load.js';
import { budget } from '../../src/study/budget/budget.js';
import { compare } from '../../src/study/compare.js';

const text = readFileSync(new URL('../support/sixty-images.yaml', import.meta.url), 'utf8');
const loaded = loadScenario(text);
if (!loaded.ok) throw new Error(loaded.faults.map(({ message }) => message).join('\n'));
const options = { file: 'sixty-images.yaml', sha256: '0', toolVersion: '0', replications: 800 };
/** Two office days. */
const GRANTED = 16 * 3600;

// Without the register, whose range limits cost most of the time of a comparison.
const { summary, replications } = compare({ ...loaded.scenario, register: [] }, options);
const rows = [...replications];
const asked = budget(loaded.scenario, options);

describe('sixty images in office hours, which hop was said to take less time for and to complete later', () => {
  it('are complete within the allocation by one count of the same campaigns in verdict, tables and budget', () => {
    for (const [place, { name, withinAllocation, finishedBySession }] of summary.strategies.entries()) {
      const own = rows.filter(({ strategy }) => strategy === name);
      const complete = own.filter(({ finished, measures }) => finished && measures.instrumentTime <= GRANTED);
      expect(withinAllocation?.value).toBe(complete.length / own.length);
      expect(finishedBySession.find(({ session }) => session === 2)?.value).toBe(withinAllocation?.value);
      const { within, requests } = asked.strategies[place];
      expect(within?.finished).toEqual(withinAllocation);
      for (const { chance, sessions } of requests) {
        const bySession = finishedBySession.find(({ session }) => session === sessions.value);
        expect(bySession?.value).toBeGreaterThanOrEqual(chance);
      }
    }
  });

  it('are ranked by completion, in which hop is the worse, and by no time', () => {
    const [swap, hop] = summary.strategies;
    expect(swap.withinAllocation?.value).toBeGreaterThan(hop.withinAllocation?.value ?? 1);
    const verdicts = summary.differences.map(({ measure, verdict }) => [measure, verdict]);
    expect(verdicts).toContainEqual(['withinAllocation', 'less']);
    expect(verdicts).toContainEqual(['time', 'less']);
    const sentences = summary.verdict.sentences.join(' ');
    expect(sentences).toMatch(
      /“hop” completes within 2 sessions less often than “swap by hand”, in .* so no time is ranked/u,
    );
    expect(sentences).not.toMatch(/better|less instrument time/u);
    expect(sentences).toContain('is counted at the bench, in operator time and cost, not in instrument time');
  });
});
