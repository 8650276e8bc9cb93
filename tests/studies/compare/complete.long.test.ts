import fc from 'fast-check';
import { stringify } from 'yaml';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { LuckTable } from '../../../src/chance/luck.js';
import { type LoadedScenario, loadScenario } from '../../../src/scenario/load.js';
import { needsOf, wantsFor, withEnoughStock } from '../../../src/studies/budget/needs.js';
import { bookedTimeOf, chancesWithin } from '../../../src/analysis/complete.js';
import { replicate, type Runnable, runnable } from '../../../src/execution/replicate.js';
import { Runs } from '../../../src/execution/runs.js';
import { strategySummary } from '../../../src/analysis/strategy-summary.js';
import { scenario } from '../../support/any-campaign.js';
import { upTo } from '../../support/answered.js';
import type { Raw } from '../../support/run.js';
import { laidOver, SCENE } from '../../support/scene.js';
import { nonEmpty, perhapsNone } from '../../support/non-empty.js';

const REPLICATIONS = 10;
const SEED = 'complete';

const bookingsSchema = z.object({ hours: z.string(), unattended: z.string() });

/** Any scenario in which stock never runs out and nothing is uncertain, by both workflows; null where it is refused. */
function loadedFrom(raw: Raw, sessions: number): LoadedScenario | null {
  const { bookings, ...rest } = raw;
  const stock = { tips: {}, chips: 1e6, specimens: 1e6 };
  const { hours, unattended } = bookingsSchema.parse(bookings);
  const granted = { hours: hours === 'always' ? 'Mo-Fr 09:00-17:00' : hours, allocation: `${sessions} sessions` };
  const strategies = [
    { name: 'swap', workflow: 'swap' },
    { name: 'hop', workflow: 'hop' },
  ];
  const loaded = loadScenario(
    stringify(laidOver(SCENE, { ...rest, stock, bookings: { unattended, ...granted }, strategies })),
  );
  return loaded.ok ? loaded.scenario : null;
}

/** What each campaign came to, one by one, beside the study. */
function outcomesOf(strategy: Runnable) {
  const table = new LuckTable(SEED);
  return Array.from({ length: REPLICATIONS }, (_, i) => replicate(strategy, table, i + 1));
}

describe('complete within an allocation (MODEL.md 7)', () => {
  it('has one chance from one set of replications: finished, with instrument time at most the allocation, in compare as in budget', () => {
    let [tried, partly] = [0, 0];
    fc.assert(
      fc.property(scenario, fc.integer({ min: 1, max: 4 }), (raw, sessions) => {
        const loaded = loadedFrom(raw, sessions);
        if (loaded === null) return;
        const followed = runnable(loaded.strategies.map(withEnoughStock));
        for (const [place, strategy] of nonEmpty(runnable(loaded.strategies).entries())) {
          const { model } = strategy;
          const compared = upTo(new Runs(strategy, SEED, { cut: true, sums: true }), REPLICATIONS);
          const { finishedBySession, withinAllocation } = strategySummary(strategy, compared);
          const budgeted = upTo(new Runs(followed[place], SEED, wantsFor([model])), REPLICATIONS);
          const needs = needsOf(model, budgeted);
          const outcomes = outcomesOf(strategy);
          const share = (isIn: (outcome: (typeof outcomes)[number]) => boolean) =>
            outcomes.filter(isIn).length / REPLICATIONS;
          for (const { session, value, ...interval } of perhapsNone(finishedBySession)) {
            const allocation = bookedTimeOf(model, session);
            expect(value).toBe(share(({ isFinished, instrumentTime }) => isFinished && instrumentTime <= allocation));
            expect(chancesWithin(needs.time, [allocation])[0]).toMatchObject({ value, low: interval.low });
            expect(needs.sessions.filter((each) => each <= session).length / REPLICATIONS).toBe(value);
            tried += 1;
            if (value > 0 && value < 1) partly += 1;
          }
          expect(withinAllocation?.value).toBe(share(({ cut }) => cut?.isFinished === true));
          const last = finishedBySession.at(-1);
          const within = finishedBySession.find(({ session }) => session === sessions) ?? last;
          if (within !== undefined) expect(withinAllocation?.value).toBe(within.value);
        }
      }),
      { seed: 15, numRuns: 200 },
    );
    // Neither all nor none, often enough to tell something.
    expect(tried).toBeGreaterThan(100);
    expect(partly).toBeGreaterThan(10);
  });

  it('never comes later to a strategy whose instrument time is less in every replication', () => {
    let [less, strictly] = [0, 0];
    fc.assert(
      fc.property(scenario, (raw) => {
        const loaded = loadedFrom(raw, 1);
        if (loaded === null) return;
        const strategies = runnable(loaded.strategies);
        const [swap, hop] = strategies.map(outcomesOf);
        if (![...swap, ...hop].every(({ isFinished }) => isFinished)) return;
        const [isSwapLess, isHopLess] = [
          swap.every(({ instrumentTime }, i) => instrumentTime <= hop[i].instrumentTime),
          hop.every(({ instrumentTime }, i) => instrumentTime <= swap[i].instrumentTime),
        ];
        if (!isSwapLess && !isHopLess) return;
        less += 1;
        const [of, other] = (isSwapLess ? strategies : strategies.toReversed()).map((strategy) => {
          const runs = upTo(new Runs(strategy, SEED, { cut: true, sums: true }), REPLICATIONS);
          return strategySummary(strategy, runs).finishedBySession;
        });
        for (const { session, value } of nonEmpty(other)) {
          const own = of.find((point) => point.session === session)?.value ?? 1;
          expect(own).toBeGreaterThanOrEqual(value);
          if (own > value) strictly += 1;
        }
      }),
      { seed: 16, numRuns: 250 },
    );
    expect(less).toBeGreaterThan(10);
    expect(strictly).toBeGreaterThan(2);
  });
});
