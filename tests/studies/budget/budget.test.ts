import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { LoadedScenario } from '../../../src/scenario/load.js';
import { budget } from '../../../src/studies/budget/budget.js';
import { needsOf, wantsFor, withEnoughStock } from '../../../src/studies/budget/needs.js';
import { runnable } from '../../../src/execution/replicate.js';
import { Runs } from '../../../src/execution/runs.js';
import { upTo } from '../../support/answered.js';
import { nonEmpty } from '../../support/non-empty.js';
import { loadedOf } from '../../support/run.js';

const record = { file: 'test.yaml', sha256: '0', toolVersion: '0' };
const demo = readFileSync(new URL('../../../scenarios/ambient-islands.yaml', import.meta.url), 'utf8');
const small = readFileSync(new URL('../../support/small.yaml', import.meta.url), 'utf8');

function scenario(text: string): LoadedScenario {
  return loadedOf(text);
}

function numbers(...values: readonly (number | null)[]): readonly number[] {
  return values.flatMap((value) => value ?? []);
}

describe('budget', () => {
  it('asks for time, tips and money that fresh campaigns need no more than in the promised share', () => {
    const [n, fresh] = [400, 1000];
    const loaded = scenario(small);
    const { strategies } = budget(loaded, { ...record, seed: 'asked', replications: n });
    for (const [i, strategy] of nonEmpty(runnable(loaded.strategies.map(withEnoughStock)).entries())) {
      const needs = needsOf(strategy.model, upTo(new Runs(strategy, 'fresh', wantsFor([strategy.model])), fresh));
      for (const { chance, time, cost, items } of nonEmpty(strategies[i].requests)) {
        // What is asked is the upper end of an interval, whose true chance lies above the promised one in 97.5 % of budgets; the
        // share kept then falls short by five standard errors of both samples with a chance of less than 3e-7 each, 2e-6 / 8 in all
        // for the least favourable of the 24 comparisons (mean of the ask's own chance: 1.96 standard errors above the promise).
        const room = 5 * Math.sqrt(chance * (1 - chance) * (1 / n + 1 / fresh));
        const kept = (needed: Float64Array, ask: number | null) =>
          needed.filter((amount) => amount <= (ask ?? NaN)).length / fresh;
        expect(kept(needs.time, time.ask)).toBeGreaterThanOrEqual(chance - room);
        expect(kept(needs.cost, cost.ask)).toBeGreaterThanOrEqual(chance - room);
        for (const [place, { ask }] of nonEmpty(items.entries()))
          expect(kept(needs.items[place], ask)).toBeGreaterThanOrEqual(chance - room);
      }
    }
  });

  it('asks for more the surer one wants to be, and for whole sessions that hold the time needed', () => {
    const { asksSessions, strategies } = budget(scenario(demo), { ...record, replications: 150 });
    expect(asksSessions).toBe(true);
    for (const { requests } of nonEmpty(strategies)) {
      for (const [i, request] of nonEmpty(requests.entries())) {
        const [ask, booked] = numbers(request.time.ask, request.booked.ask);
        expect(booked).toBeGreaterThanOrEqual(ask);
        if (i > 0) expect(ask).toBeGreaterThanOrEqual(requests[i - 1].time.ask ?? NaN);
        expect(request.sessions.ask).toBe((booked * 1) / (8 * 3600));
      }
    }
  });

  it('asks for hours where a booking is longer than a working day', () => {
    const longer = demo.replace('hours: Tu-Th 09:00-17:00', 'hours: Mo 09:00-24:00, Tu-Fr 00:00-24:00');
    const { asksSessions, hasBookings } = budget(scenario(longer), { ...record, replications: 100 });
    expect([asksSessions, hasBookings]).toEqual([false, true]);
  });

  it('is not held up by the stock that the scenario has, as what to order is the question', () => {
    const scarce = demo.replace('tips: { sharp: 20 }', 'tips: { sharp: 1 }');
    const [plenty] = budget(scenario(demo), { ...record, replications: 100 }).strategies;
    const [few] = budget(scenario(scarce), { ...record, replications: 100 }).strategies;
    expect(few.requests).toEqual(plenty.requests);
  });

  it('finds with the time asked for at least the promised chance, and with more time more', () => {
    const loaded = scenario(demo);
    const [{ requests }] = budget(loaded, { ...record, replications: 150 }).strategies;
    const [sessions] = numbers(requests[2].sessions.ask);
    const { strategies, granted } = budget(loaded, {
      ...record,
      replications: 150,
      granted: { unit: 'session', amount: sessions },
    });
    expect(granted?.text).toBe(`${sessions} sessions`);
    const [{ within, curve }] = strategies;
    expect(within?.finished.value).toBeGreaterThanOrEqual(0.9);
    // All points meet common random numbers, so not one campaign has less done with more time.
    for (const [i, point] of nonEmpty(curve.entries())) {
      if (i > 0) expect(point.measured.value).toBeGreaterThanOrEqual(curve[i - 1].measured.value - 1e-12);
    }
    expect(curve.at(-1)?.measured.value).toBeGreaterThan(0.99);
  });

  it('asks for more where a hazard is not well known, as random variation and parameter uncertainty together may need it', () => {
    const hazard = 'life: { distribution: probability, perUnit: 0.2 }';
    const unknown = `${hazard}, uncertainty: { range: { perUnit: [0.06, 0.5] } }`;
    const longer = small.replace('regions: 3', 'regions: 20');
    const known = budget(scenario(longer), { ...record, replications: 200 });
    const drawn = budget(scenario(longer.replace(hazard, unknown)), { ...record, replications: 200 });
    expect(known.notKnown).toEqual([]);
    expect(drawn.notKnown).toHaveLength(1);
    const spread = ({ strategies }: typeof known) => {
      const [half, , , most] = strategies[0].requests;
      const [low, high] = numbers(half.time.value, most.time.value);
      return high - low;
    };
    // Twenty images need 5 tips more than the first, give or take 2.5, at 0.2, and 20 more at 0.5.
    expect(spread(drawn)).toBeGreaterThan(1.5 * spread(known));
  });

  it('orders a chip for every change of tip where a chip has one site', () => {
    const hopeless = demo.replace('sharp: 64', 'sharp: 1').replace('dead: { sharp: 0.2 }', 'dead: { sharp: 0 }');
    const chipless = scenario(hopeless);
    const { strategies } = budget(chipless, { ...record, replications: 100 });
    // One site a chip: every change of tip opens another chip, of which there are enough.
    expect(strategies[2].requests[0].items.find(({ what }) => what === 'chips')?.ask).toBeGreaterThan(1);
    expect(strategies[0].finishes.value).toBe(1);
  });
});
