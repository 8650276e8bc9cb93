import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Forecast, type Used } from '../../src/cli/forecast.js';

/** A study whose phases come one after the other; each campaign takes so many seconds of one of two processors. */
interface Phase {
  readonly campaigns: number;
  readonly each: number;
  readonly told: number;
}

/** What is said of it, with the seconds of the processors used by then. */
function saidOf(phases: readonly Phase[]) {
  const used = { wall: 0, processor: 0 };
  const said: (Used & { readonly text: string })[] = [];
  const forecast = new Forecast(
    (text) => void said.push({ ...used, text: text.replaceAll(/\s/gu, ' ') }),
    () => ({ ...used }),
  );
  for (const [number, { campaigns, each, told }] of phases.entries())
    for (let done = 0; done < campaigns;) {
      const more = Math.min(told, campaigns - done);
      done += more;
      used.processor += more * each;
      used.wall += (more * each) / 2;
      forecast.update(`phase ${number + 1}`, done, campaigns);
    }
  return { said, used };
}

describe('a study of which it is not known how long it takes', () => {
  it('is silent where that is less than ten seconds of the processors', () => {
    expect(saidOf([{ campaigns: 200, each: 0.045, told: 5 }]).said).toEqual([]);
  });

  it('says by the first campaigns how long the rest takes on the clock', () => {
    const { said } = saidOf([{ campaigns: 20_000, each: 0.018, told: 100 }]);
    expect(said.map(({ text }) => text)).toEqual(['phase 1: about 3 min left']);
    expect(said[0].processor).toBeLessThan(5);
  });

  it('says so by the first campaign, where that alone is long', () => {
    const { said } = saidOf([{ campaigns: 20, each: 30, told: 1 }]);
    expect(said).toEqual([{ wall: 15, processor: 30, text: 'phase 1: about 5 min left' }]);
  });

  it('says it again where it takes twice as long after all, and no more often', () => {
    const { said } = saidOf(Array.from({ length: 6 }, () => ({ campaigns: 1000, each: 0.02, told: 10 })));
    expect(said.map(({ text }) => text.replace(/:.*/u, ''))).toEqual(['phase 1', 'phase 2', 'phase 4']);
  });

  it('never takes more than ten seconds and what it has just done without having said so, short of its last moment', () => {
    const phase = fc.record({
      campaigns: fc.integer({ min: 20, max: 2000 }),
      each: fc.double({ min: 0.001, max: 3, noNaN: true }),
      told: fc.integer({ min: 1, max: 4 }),
    });
    fc.assert(
      fc.property(fc.array(phase, { minLength: 1, maxLength: 5 }), (phases) => {
        const { said, used } = saidOf(phases);
        const last = phases[phases.length - 1];
        const steps = Math.max(...phases.map(({ each, told }) => each * told));
        if (used.processor < 10 + 3 * steps + 1.5) return;
        expect(said.length, JSON.stringify(last)).toBeGreaterThan(0);
        expect(said[0].processor).toBeLessThan(10 + 3 * steps + 1.5);
      }),
      { seed: 22, numRuns: 500 },
    );
  });
});
