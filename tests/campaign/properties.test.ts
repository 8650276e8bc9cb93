import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runCampaign } from '../../src/campaign/campaign.js';
import type { CampaignModel } from '../../src/campaign/model.js';
import type { Outcome } from '../../src/campaign/outcome.js';
import { type Activity, ACTIVITY_NUMBER } from '../../src/campaign/activities.js';
import { LOST_SCANS, type TimePart, TIME_PARTS } from '../../src/campaign/time-parts.js';
import { LuckTable } from '../../src/chance/luck.js';
import { SECOND } from '../../src/kernel/clock.js';
import { chance, modelIfSound, scenario } from '../support/any-campaign.js';
import { Minutes } from '../support/stage.js';
import { nonEmpty } from '../support/non-empty.js';

interface Run {
  readonly model: CampaignModel;
  readonly outcome: Outcome;
  readonly again: Outcome;
  readonly record: Minutes;
}

const CASES = 300;
const LUCK = new LuckTable('any campaign');
/** Every sound one of so many scenarios drawn from a fixed seed, run once with and once without a recorder. */
const RUNS: readonly Run[] = fc.sample(scenario, { seed: 7, numRuns: CASES }).flatMap((over, i) => {
  const model = modelIfSound(over);
  if (model === null) return [];
  const record = new Minutes();
  const outcome = runCampaign(model, LUCK.replication(i), record);
  return [{ model, outcome, again: runCampaign(model, LUCK.replication(i)), record }];
});

function each(check: (run: Run) => void): void {
  for (const run of RUNS) check(run);
}

const added = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0);

describe('any campaign', () => {
  it('ends, and most of what is drawn is a sound scenario of which much happens', () => {
    expect(RUNS.length).toBeGreaterThan(CASES / 3);
    expect(RUNS.filter(({ outcome }) => outcome.isFinished).length).toBeGreaterThan(RUNS.length / 4);
    expect(RUNS.filter(({ outcome }) => outcome.tips > 3).length).toBeGreaterThan(RUNS.length / 4);
  });

  it('that does not finish says why: no instrument is left waiting for what never comes', () => {
    each(({ outcome, record, model }) => {
      if (outcome.isFinished) return;
      const said = Array.from({ length: model.settings.instruments }, (_, i) => record.lines(i)).flat();
      expect(said.some((line) => /\* the (?:experiment|sample) ends$/u.test(line))).toBe(true);
    });
  });

  it('has no number that is none, and nothing below zero', () => {
    each(({ outcome }) => {
      const { totalTime, instrumentTime, operatorTime, overrun, confirmedAt, cost, takes, tips } = outcome;
      for (const value of [totalTime, instrumentTime, operatorTime, overrun, confirmedAt, cost, takes, tips]) {
        expect(Number.isFinite(value)).toBe(true);
        expect(value).toBeGreaterThanOrEqual(0);
      }
    });
  });

  it('is the same whether it is recorded or not', () => {
    each(({ outcome, again }) => {
      expect(JSON.stringify(again)).toBe(JSON.stringify(outcome));
    });
  });

  it('has a time split that adds up to what elapsed, to the microsecond', () => {
    each(({ outcome }) => {
      expect(outcome.split.map(added)).toEqual(outcome.elapsed);
      expect(Math.min(...outcome.split.flat())).toBeGreaterThanOrEqual(0);
    });
  });

  it('has parts of its instrument time that add up to it, to the microsecond, with as much scanning as its split has', () => {
    each(({ model, outcome }) => {
      const { timeParts, instrumentTime, split, elapsed } = outcome;
      expect(added(timeParts)).toBe(Math.round(instrumentTime * SECOND));
      expect(Math.min(...timeParts)).toBeGreaterThanOrEqual(0);
      if (elapsed.length > 1) return;
      const part = (name: TimePart) => timeParts[TIME_PARTS.indexOf(name)];
      const spent = (activity: Activity) => split[0][ACTIVITY_NUMBER[activity]];
      expect(part('scans kept')).toBe(spent('scanning kept'));
      expect(added(LOST_SCANS.map(part))).toBe(spent('scanning lost'));
      if (!model.bookings.isAlways) return;
      expect(part('settling and warming up')).toBe(spent('warming up and settling'));
    });
    // Nothing drifts in these scenarios, and no loop has to follow.
    const never: readonly TimePart[] = ['scans lost to drift', 'scans lost to loss of tracking'];
    const met = TIME_PARTS.filter((_, number) => RUNS.some(({ outcome }) => outcome.timeParts[number] > 0));
    expect(met).toEqual(TIME_PARTS.filter((name) => !never.includes(name)));
  });

  it('records steps and waits of each instrument without gap or overlap', () => {
    each(({ model, outcome, record }) => {
      outcome.elapsed.forEach((elapsed, instrument) => {
        const own = record.steps.filter((step) => step.instrument === instrument);
        const ends = [model.start, ...own.map(({ end }) => end)];
        expect(own.map(({ start }) => start)).toEqual(ends.slice(0, -1));
        expect(ends[own.length] - model.start).toBe(elapsed);
      });
    });
  });

  it('plans as many images as are good, undetected bad, given up and missing, cut or not', () => {
    each(({ model, outcome }) => {
      for (const tally of [outcome, outcome.cut]) {
        if (tally === null) continue;
        expect(tally.good + tally.undetectedBad + tally.givenUp + tally.missing).toBe(model.images.length);
        expect(tally.yield).toBeGreaterThanOrEqual(0);
        expect(tally.apparentYield).toBeGreaterThanOrEqual(tally.yield);
        expect(tally.apparentYield).toBeLessThanOrEqual(1 + 1e-12);
      }
      if (outcome.isFinished) expect(outcome.missing).toBe(0);
    });
  });

  it('uses tips in ascending numbers; one comes back after another of its kind only where critical passes part them', () => {
    each(({ model, outcome, record }) => {
      const names = outcome.tipRecords.map((tip) => `${tip.instrument} ${tip.kind} ${tip.number}`);
      expect(new Set(names).size).toBe(names.length);
      expect(names.length).toBe(outcome.tips);
      const seen = new Map<string, readonly number[]>();
      const isParting = model.images.some(({ pass }) => pass.critical);
      for (const { instrument, tip: on } of nonEmpty(record.steps)) {
        if (on === null) continue;
        const key = `${instrument} ${on.kind.name}`;
        const before = seen.get(key) ?? [];
        const isKnown = isParting ? before.includes(on.number) : before.at(-1) === on.number;
        if (isKnown) continue;
        expect(on.number).toBeGreaterThan(before.at(-1) ?? -1);
        seen.set(key, [...before, on.number]);
      }
      expect(model.kinds.length).toBe(2);
    });
  });

  it('starts steps only inside bookings, scans only where they fit, and manual ones only with an operator present', () => {
    each(({ model, record }) => {
      const { prepareAt } = model.settings.workflows.hop;
      for (const { step, start, end } of nonEmpty(record.steps)) {
        if (step === 'wait' || step === 'late review') continue;
        if (step !== 'prepare' || prepareAt === 'instrument') expect(model.bookings.isOpen(start)).toBe(true);
        if (step === 'scan') expect(end).toBeLessThanOrEqual(model.bookings.closing(start));
        const isManual =
          step === 'review' ? model.settings.noticing.review.by === 'operator' : model.steps[step].manual;
        if (isManual || (model.settings.bookings.unattended === 'none' && step !== 'prepare'))
          expect(model.presence.isOpen(start)).toBe(true);
      }
    });
  });

  it('never needs more operators at once than there are', () => {
    each(({ model, record }) => {
      const { review } = model.settings.noticing;
      const work = record.steps.filter(({ step }) =>
        step === 'review'
          ? review.by === 'operator'
          : step !== 'wait' && step !== 'late review' && model.steps[step].manual,
      );
      const late = record.lateReviews.map((end) => ({ start: end - Math.round(review.time * 1e6), end }));
      const changes = [...work, ...late]
        .filter(({ start, end }) => end > start)
        .flatMap(({ start, end }) => [
          { time: start, by: 1 },
          { time: end, by: -1 },
        ])
        .sort((a, b) => a.time - b.time || a.by - b.by);
      let [busy, most] = [0, 0];
      for (const { by } of changes) {
        busy += by;
        most = Math.max(most, busy);
      }
      expect(most).toBeLessThanOrEqual(model.settings.operators.count);
    });
  });
});

describe('more breakage, with common random numbers', () => {
  it('never gives fewer takes, fewer tips or less time', () => {
    const lower = chance(0.5);
    fc.assert(
      fc.property(
        fc.record({
          workflow: fc.constantFrom('swap', 'hop'),
          order: fc.constantFrom('region-first', 'tip-first'),
          regions: fc.integer({ min: 1, max: 4 }),
          kinds: fc.array(fc.constantFrom('sharp', 'soft'), { minLength: 1, maxLength: 4 }),
          p: lower,
          more: chance(0.4),
          replication: fc.nat({ max: 9999 }),
          fineRange: fc.constantFrom('150 um', '350 um'),
        }),
        ({ workflow, order, regions, kinds, p, more, replication, fineRange }) => {
          // A chip that never runs out: else an exchange may discard a parked tip before it breaks.
          const sites = 100_000;
          const run = (perUnit: number) => {
            const breakage = [{ cause: 'breakage', per: 'image', life: { distribution: 'probability', perUnit } }];
            const model = modelIfSound({
              strategies: [{ name: 'one', workflow }],
              plan: {
                order,
                regions,
                passes: kinds.map((kind, i) => ({
                  name: `pass ${i}`,
                  tip: kind,
                  size: '1 um',
                  lines: 60,
                  lineRate: '0.1 Hz',
                  accept: 1,
                })),
              },
              tips: Object.fromEntries(
                ['sharp', 'soft'].map((kind) => [
                  kind,
                  { radius: { nominal: '8 nm', geometricSd: 1 }, hazards: breakage },
                ]),
              ),
              workflows: { hop: { chip: { sites: { sharp: sites, soft: sites } }, fineRange } },
              noticing: { attempts: 1000 },
            });
            if (model === null) throw new Error('The scenario is sound.');
            return runCampaign(model, LUCK.replication(replication));
          };
          const [less, broken] = [run(p), run(p + more)];
          expect(broken.takes).toBeGreaterThanOrEqual(less.takes);
          expect(broken.tips).toBeGreaterThanOrEqual(less.tips);
          expect(broken.totalTime).toBeGreaterThanOrEqual(less.totalTime);
          expect(broken.good).toBe(regions * kinds.length);
        },
      ),
      { seed: 11, numRuns: 50 },
    );
  });
});
