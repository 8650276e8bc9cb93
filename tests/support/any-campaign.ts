import fc from 'fast-check';
import { type CampaignModel, compileModel } from '../../src/campaign/model.js';
import { loadScenario } from '../../src/scenario/load.js';
import type { Raw } from './run.js';
import { laidOver, SCENE } from './scene.js';

/** The model of a scenario, or null where the file is refused: what is impossible is none of the campaign's business. */
export function modelIfSound(over: Raw): CampaignModel | null {
  const loaded = loadScenario(JSON.stringify(laidOver(SCENE, over)));
  if (!loaded.ok) return null;
  const [{ workflow, settings }] = loaded.scenario.strategies;
  return compileModel(workflow, settings);
}

export const chance = (max: number) => fc.double({ min: 0, max, noNaN: true });
const minutes = (max: number) => fc.integer({ min: 0, max }).map((time) => `${time} min`);
const sometimes = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined, freq: 2 });

const hazard = fc.oneof(
  fc.record({
    cause: fc.constantFrom('breakage', 'coating'),
    per: fc.constantFrom('image', 'approach'),
    life: fc.record({ distribution: fc.constant('probability'), perUnit: chance(0.6) }),
  }),
  fc.record({
    cause: fc.constant('fouling'),
    per: fc.constantFrom('image', 'hour'),
    life: fc.record({ distribution: fc.constant('exponential'), mean: fc.integer({ min: 1, max: 6 }) }),
    quality: chance(1),
    clears: fc.constantFrom('never', 0.5, 3),
  }),
  fc.record({
    cause: fc.constantFrom('chipping', 'worn-out'),
    per: fc.constant('image'),
    life: fc.record({
      distribution: fc.constant('weibull'),
      shape: fc.constantFrom(0.7, 2),
      scale: fc.integer({ min: 1, max: 8 }),
    }),
  }),
);
const tip = fc.record({
  radius: fc.constant({ nominal: '8 nm', geometricSd: 1.2 }),
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
const BOTH = ['setUp', 'warmUp', 'locate', 'retract', 'align', 'resonance', 'approach', 'settle', 'changeSample'];
const SWAP = [...BOTH, 'exchange'];
const HOP = [...BOTH, 'offset', 'coarseMove', 'chipExchange'];
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

/** Scenarios of all kinds, some of them impossible. */
export const scenario: fc.Arbitrary<Raw> = fc.record({
  plan: fc.record({
    order: fc.constantFrom('region-first', 'tip-first'),
    samples: fc.constantFrom(1, 1, 3, [{ name: 'first' }, { name: 'second', regions: 2 }]),
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
