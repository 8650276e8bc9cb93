import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import { runCampaign } from '../../src/campaign/campaign.js';
import { type CampaignModel, compileModel } from '../../src/campaign/model.js';
import type { Outcome } from '../../src/campaign/outcome.js';
import { LuckTable } from '../../src/chance/luck.js';
import { loadScenario } from '../../src/scenario/load.js';
import { laidOver, Minutes, type Raw, SCENE } from '../support/stage.js';

/** The model of a scenario, or null where the file is refused: what is impossible is none of the campaign's business. */
function modelIfSound(over: Raw): CampaignModel | null {
  const loaded = loadScenario(stringify(laidOver(SCENE, over)));
  if (!loaded.ok) return null;
  const [{ workflow, settings }] = loaded.scenario.strategies;
  return compileModel(workflow, settings);
}

const chance = (max: number) => fc.double({ min: 0, max, noNaN: true });
const minutes = (max: number) => fc.integer({ min: 0, max }).map((time) => `${time} min`);
const sometimes = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined, freq: 2 });

const hazard = fc.oneof(
  fc.record({
    cause: fc.constantFrom('breakage', 'coating'),
    per: fc.constantFrom('image', 'approach'),
    life: fc.record({ law: fc.constant('probability'), perUnit: chance(0.6) }),
  }),
  fc.record({
    cause: fc.constant('fouling'),
    per: fc.constantFrom('image', 'hour'),
    life: fc.record({ law: fc.constant('exponential'), mean: fc.integer({ min: 1, max: 6 }) }),
    quality: chance(1),
    clears: fc.constantFrom('never', 0.5, 3),
  }),
  fc.record({
    cause: fc.constantFrom('chipping', 'worn-out'),
    per: fc.constant('image'),
    life: fc.record({
      law: fc.constant('weibull'),
      shape: fc.constantFrom(0.7, 2),
      scale: fc.integer({ min: 1, max: 8 }),
    }),
  }),
);
const tip = fc.record({
  radius: fc.constant({ nominal: '8 nm', spread: 1.2 }),
  hazards: fc.array(hazard, { maxLength: 3 }),
});
const aPass = fc.record({
  tip: fc.constantFrom('sharp', 'soft'),
  size: fc.constant('500 nm'),
  lines: fc.constantFrom(60, 120),
  lineRate: fc.constantFrom('0.05 Hz', '0.1 Hz', '1 Hz'),
  neededResolution: sometimes(fc.constant('20 nm')),
  dip: fc.constant('1 nm'),
  accept: fc.constantFrom(0, 0.5, 0.8),
  weight: fc.constantFrom(0, 1, 3),
  signal: fc.constantFrom('topography', 'electrical'),
  critical: fc.boolean(),
});
const step = (extras: Raw = {}) =>
  fc.record({ fixed: minutes(12), manual: fc.boolean() }).map((written) => ({ ...written, ...extras }));
const lognormal = fc.constant({ usual: '3 min', p90: '7 min' });
const SWAP = ['setUp', 'warmUp', 'locate', 'retract', 'exchange', 'align', 'resonance', 'approach', 'settle'];
const HOP = [
  'setUp',
  'warmUp',
  'locate',
  'retract',
  'offset',
  'coarseMove',
  'chipExchange',
  'resonance',
  'approach',
  'settle',
];
const stepsOf = (names: readonly string[], repeated: readonly string[]) =>
  fc.record(
    Object.fromEntries([
      ...names.map((name): [string, fc.Arbitrary<Raw>] => [name, fc.oneof(step(), lognormal)]),
      ...repeated.map((name): [string, fc.Arbitrary<Raw>] => [name, step({ success: 0.7 })]),
    ]),
  );
const mishandling = fc.record({ probability: chance(0.5) });
const supply = fc.oneof(fc.integer({ min: 1, max: 5 }), fc.constant({ atHand: 2, restock: '9 h' }));
const HOURS = ['always', 'Mo-Fr 09:00-17:00', 'Mo-Fr 08:30-12:00,13:00-20:00', 'We 22:00-06:00; Sa 10:00-16:00'];

const scenario: fc.Arbitrary<Raw> = fc.record({
  plan: fc.record({
    order: fc.constantFrom('region-first', 'tip-first'),
    regions: fc.integer({ min: 1, max: 4 }),
    passes: fc
      .array(aPass, { minLength: 1, maxLength: 3 })
      .map((passes) => passes.map((pass, i) => ({ name: `pass ${i}`, ...pass }))),
  }),
  tips: fc.record({ sharp: tip, soft: tip }),
  strategies: fc.constantFrom('swap', 'hop').map((workflow) => [{ name: 'one', workflow }]),
  workflows: fc.record({
    swap: fc.record({ steps: stepsOf(SWAP, ['relocate']), mishandling }),
    hop: fc.record({
      steps: stepsOf(HOP, ['prepare', 'register']),
      prepareAt: fc.constantFrom('bench', 'instrument'),
      mishandling,
      specimenLoss: chance(0.2),
      chip: fc.record({
        sites: fc.record({ sharp: fc.integer({ min: 1, max: 4 }), soft: fc.integer({ min: 1, max: 4 }) }),
        dead: fc.record({ sharp: chance(0.5), soft: chance(0.5) }),
      }),
      fineRange: sometimes(fc.constantFrom('150 um', '250 um')),
    }),
  }),
  noticing: fc.record({
    review: fc.record({
      by: fc.constantFrom('operator', 'automatic', 'nobody'),
      time: minutes(6),
      sensitivity: chance(1),
      falseAlarm: chance(0.3),
    }),
    check: sometimes(
      fc.record({
        every: fc.integer({ min: 1, max: 3 }),
        time: minutes(5),
        manual: fc.boolean(),
        sensitivity: chance(1),
        falseAlarm: chance(0.3),
        onNew: fc.boolean(),
        repeatSuspects: fc.boolean(),
      }),
    ),
    watch: sometimes(
      fc.record({ by: fc.constantFrom('operator', 'automatic'), sensitivity: chance(1), delay: minutes(4) }),
    ),
    attempts: fc.integer({ min: 1, max: 4 }),
  }),
  rules: fc.record({
    after: sometimes(fc.constantFrom('1 image', '2.5 images', '40 min')),
    radiusAbove: sometimes(fc.constant('12 nm')),
    cleanFirst: fc.record({ tries: fc.integer({ min: 0, max: 2 }), time: minutes(9), manual: fc.boolean() }),
    recondition: fc.record({ tries: fc.integer({ min: 0, max: 2 }), time: minutes(9), manual: fc.boolean() }),
  }),
  stock: fc.record({ tips: fc.record({ sharp: supply }), chips: supply, specimens: supply }),
  pace: fc.record({ scan: fc.constantFrom(0.7, 1, 2), hands: fc.constantFrom(0.8, 1, 3) }),
  instruments: fc.integer({ min: 1, max: 3 }),
  operators: fc.record({ count: fc.integer({ min: 1, max: 2 }), hours: fc.constantFrom(...HOURS) }),
  bookings: fc.record({
    hours: fc.constantFrom(...HOURS),
    allocation: sometimes(fc.constant('9 h')),
    unattended: fc.constantFrom('none', 'scanning', 'hopping'),
  }),
});

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
      expect(said.some((line) => line.endsWith('* the experiment ends'))).toBe(true);
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

  it('records steps and waits of each instrument without gap or overlap', () => {
    each(({ model, outcome, record }) => {
      outcome.elapsed.forEach((elapsed, instrument) => {
        let at = model.start;
        for (const step of record.steps.filter((candidate) => candidate.instrument === instrument)) {
          expect(step.start).toBe(at);
          at = step.end;
        }
        expect(at - model.start).toBe(elapsed);
      });
    });
  });

  it('plans as many images as are good, silent bad, given up and missing, cut or not', () => {
    each(({ model, outcome }) => {
      for (const tally of [outcome, outcome.cut]) {
        if (tally === null) continue;
        expect(tally.good + tally.silentBad + tally.givenUp + tally.missing).toBe(model.images.length);
        expect(tally.yield).toBeGreaterThanOrEqual(0);
        expect(tally.apparentYield).toBeGreaterThanOrEqual(tally.yield);
        expect(tally.apparentYield).toBeLessThanOrEqual(1 + 1e-12);
      }
      if (outcome.isFinished) expect(outcome.missing).toBe(0);
    });
  });

  it('uses tips in ascending numbers, none again once another of its kind is on', () => {
    each(({ model, outcome, record }) => {
      const names = outcome.tipRecords.map((tip) => `${tip.instrument} ${tip.kind} ${tip.number}`);
      expect(new Set(names).size).toBe(names.length);
      expect(names.length).toBe(outcome.tips);
      const last = new Map<string, number>();
      for (const { instrument, tip: on } of record.steps) {
        if (on === null) continue;
        const key = `${instrument} ${on.kind.name}`;
        expect(on.number).toBeGreaterThanOrEqual(last.get(key) ?? 0);
        last.set(key, on.number);
      }
      expect(model.kinds.length).toBe(2);
    });
  });

  it('starts steps only inside bookings, scans only where they fit, and manual ones only with an operator present', () => {
    each(({ model, record }) => {
      const { prepareAt } = model.settings.workflows.hop;
      for (const { step, start, end } of record.steps) {
        if (step === 'wait' || step === 'late review') continue;
        if (step !== 'prepare' || prepareAt === 'instrument') expect(model.bookings.isOpen(start)).toBe(true);
        if (step === 'scan') expect(end).toBeLessThanOrEqual(model.bookings.closing(start));
        const isManual =
          step === 'review' ? model.settings.noticing.review.by === 'operator' : model.steps.get(step)?.manual === true;
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
          : step !== 'wait' && step !== 'late review' && model.steps.get(step)?.manual === true,
      );
      const late = record.lateReviews.map((end) => ({ start: end - Math.round(review.time * 1e6), end }));
      const changes = [...work, ...late]
        .filter(({ start, end }) => end > start)
        .flatMap(({ start, end }) => [
          { time: start, by: 1 },
          { time: end, by: -1 },
        ])
        .sort((a, b) => a.time - b.time || a.by - b.by);
      let busy = 0;
      for (const { by } of changes) expect((busy += by)).toBeLessThanOrEqual(model.settings.operators.count);
    });
  });
});

describe('more breakage, on the same luck', () => {
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
            const breakage = [{ cause: 'breakage', per: 'image', life: { law: 'probability', perUnit } }];
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
                ['sharp', 'soft'].map((kind) => [kind, { radius: { nominal: '8 nm', spread: 1 }, hazards: breakage }]),
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
