import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { LoadedScenario } from '../../../src/scenario/load.js';
import { budget } from '../../../src/studies/budget/budget.js';
import { compare } from '../../../src/studies/compare/compare.js';
import { nonEmpty } from '../../support/non-empty.js';
import { loadedOf } from '../../support/run.js';

const text = readFileSync(new URL('../../support/sixty-images.yaml', import.meta.url), 'utf8');
const options = { file: 'sixty-images.yaml', sha256: '0', toolVersion: '0', replications: 800 };

function granted(allocation: string): LoadedScenario {
  return loadedOf(text.replace('allocation: 2 sessions', `allocation: ${allocation}`));
}

/** Without the assumptions, whose range limits cost most of the time of a comparison. */
function compared(loaded: LoadedScenario) {
  const { summary, replications } = compare({ ...loaded, register: [] }, options);
  const verdictOn = (measure: string) => summary.differences.find((each) => each.measure === measure)?.verdict;
  return { summary, rows: [...replications], verdictOn, said: summary.verdict.findings.join(' ') };
}

describe('sixty images in office hours, which hop was said to take less time for and to complete later', () => {
  it.each([
    ['2 sessions', 16],
    ['13 h', 13],
  ])('are complete within %s by one count of the same campaigns in verdict, tables and budget', (allocation, hours) => {
    const loaded = granted(allocation);
    const { summary, rows, verdictOn, said } = compared(loaded);
    const asked = budget(loaded, options);
    for (const [place, { name, withinAllocation, finishedBySession }] of nonEmpty(summary.strategies.entries())) {
      const own = rows.filter(({ strategy }) => strategy === name);
      const complete = own.filter(({ finished, measures }) => finished && measures.instrumentTime <= hours * 3600);
      expect(withinAllocation?.value).toBe(complete.length / own.length);
      const { within, requests } = asked.strategies[place];
      expect(within?.finished).toEqual(withinAllocation);
      expect(requests.length).toBeGreaterThan(0);
      for (const { chance, sessions } of nonEmpty(requests)) {
        const bySession = finishedBySession.find(({ session }) => session === sessions.value);
        expect(bySession?.value).toBeGreaterThanOrEqual(chance);
      }
    }
    // Whatever completion comes to, the verdict says it of the same difference, and ranks no time where that is clear.
    const isClear = verdictOn('withinAllocation') !== 'no clear difference';
    expect(said.includes(`“hop” completes within ${allocation} `)).toBe(isClear);
    expect(said.includes('less instrument time')).toBe(!isClear);
    expect(said).toContain('is counted at the bench, in operator time and cost, not in instrument time');
  });

  it('are completed more often by hop, which takes less instrument time, where fewer hours are granted', () => {
    const { summary, verdictOn, said } = compared(granted('13 h'));
    const [swap, hop] = summary.strategies.map(({ withinAllocation }) => withinAllocation?.value ?? NaN);
    // 92 % against 45 %: far from each other by tens of standard errors.
    expect(hop).toBeGreaterThan(swap);
    expect(['withinAllocation', 'time', 'operatorTime'].map(verdictOn)).toEqual(['more', 'less', 'more']);
    expect(said).toMatch(/“hop” completes within 13 h in .* of campaigns, “swap by hand” in .* so no time is ranked/u);
  });
});
