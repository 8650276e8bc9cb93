import { describe, expect, it } from 'vitest';
import { Stopped } from '../../../src/execution/work.js';
import type { Sensitivity } from '../../../src/studies/sensitivity/results.js';
import { sensitivityWork } from '../../../src/studies/sensitivity/sensitivity.js';
import { loadedFrom } from '../../support/known-break-even.js';
import { ASKED, knownRange, tried } from '../../support/known-sensitivity.js';
import { nonEmpty } from '../../support/non-empty.js';
import { said } from '../../support/said.js';
import { stoppedAfter } from '../../support/stopped.js';

describe('all values drawn at once', () => {
  it('take in what has a source where that is asked for, and name what cannot be drawn', () => {
    const all = tried(knownRange('700 s'), true);
    expect(all.atOnce?.weights.length).toBeGreaterThan(1);
    const drawn = new Set(all.atOnce?.weights.map(({ path }) => path));
    for (const { path } of nonEmpty(all.atOnce?.notDrawn ?? [])) expect(drawn.has(path)).toBe(false);
    expect(said(all.answer).join(' ')).toContain('Tried one at a time only, since they stand at nothing');
  });
});

describe('an end that is no scenario', () => {
  it('is not tried, and the reason stands in its place', () => {
    // At a tenth of its rate a scan of a minute takes ten, which fits into no booking of five.
    const ranges = 'ranges:\n  plan.passes.image.lineRate: [0.1 Hz, 1 Hz]\n';
    const tight = knownRange('700 s').replace('ranges:\n', ranges).replace('  plan: by hand\n', '');
    const bound = `${tight}bookings: { hours: 'Mo-Fr 09:00-09:05' }\noperators: { hours: always }\n`;
    const { swings, answer } = tried(bound);
    const swing = swings.find(({ path }) => path === 'plan.passes.image.lineRate');
    expect(swing?.low).toMatchObject({ at: '0.1 Hz', difference: null });
    expect(swing?.low.notTried).toMatch(/booking/u);
    expect(swing?.high.difference).not.toBeNull();
    expect(said(answer).join(' ')).toContain('“Line rate at pace 1, image” could not be tried');
  });
});

describe('a sensitivity that is interrupted', () => {
  it('says what is known of values one at a time once all are at both ends, and decides nothing', () => {
    const whole = tried(knownRange('700 s'));
    const loaded = loadedFrom(knownRange('700 s'));
    const stoppedIn = (round: number): Sensitivity | null => {
      try {
        return stoppedAfter(sensitivityWork(loaded, ASKED), round);
      } catch (error) {
        if (error instanceof Stopped) return null;
        throw error;
      }
    };
    const found: Sensitivity[] = [];
    for (let round = 0; ; round += 1) {
      const result = stoppedIn(round);
      if (result !== null && !result.stopping.startsWith('interrupted')) break;
      if (result !== null) found.push(result);
      // Once there is something to say, there is more and more.
      else expect(found).toEqual([]);
    }
    expect(stoppedIn(0)).toBeNull();
    expect(found.length).toBeGreaterThan(1);
    for (const result of nonEmpty(found)) {
      expect(result.atOnce).toBeNull();
      expect(result.answer.decided).toBe(false);
      expect(said(result.answer)[0]).toBe(`Inconclusive: ${result.stopping}.`);
      expect(result.swings.map(({ path, low, high }) => ({ path, low, high }))).toEqual(
        whole.swings.map(({ path, low, high }) => ({ path, low, high })),
      );
    }
    expect(nonEmpty(found[0].swings).every(({ turning }) => turning === null)).toBe(true);
    expect(found.at(-1)?.swings).toEqual(whole.swings);
  });
});
