import fc from 'fast-check';
import { scenarioSchema } from '../../src/scenario/schema/scenario.js';
import { type Data, type Hints, isData, written } from './written.js';

const KINDS = ['sharp', 'soft'] as const;
const HOURS = ['always', 'Mo-Fr 09:00-17:00', 'Mo-Su 08:00-20:00', 'We 22:00-06:00; Sa 10:00-16:00'];
const named = (names: readonly string[]) => fc.constantFrom(...names);
const ofKinds = (each: fc.Arbitrary<unknown>) => fc.record(Object.fromEntries(KINDS.map((kind) => [kind, each])));

/** What a strategy may set beside the workflow, as paths and values. */
const SETTINGS: readonly (readonly [string, unknown])[] = [
  ['plan.regions', 1],
  ['tips.sharp.radius.nominal', '12 nm'],
  ['noticing.attempts', 2],
  ['workflows.swap.steps.exchange', '5 min'],
  ['rules.cleanFirst', { tries: 1 }],
  ['pace.scan', 1.5],
];

/** The amounts of lives are counts, paths or times, as the hazard counts. */
function inUnitOf(hazard: unknown): unknown {
  if (!isData(hazard)) return hazard;
  const { per } = hazard;
  const unit = per === 'distance' ? ' mm' : per === 'hour' ? ' h' : '';
  const convert = (value: unknown): unknown => {
    if (isData(value)) return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, convert(inner)]));
    return typeof value === 'string' && value.startsWith('~')
      ? unit === ''
        ? Number(value.slice(1))
        : value.slice(1) + unit
      : value;
  };
  return convert(hazard);
}

/** Spans and ends that the schema alone does not set: what is too large keeps a fuzzer busy and finds nothing. */
const HINTS: Hints = new Map<string, fc.Arbitrary<unknown>>([
  ['exposure', fc.double({ min: -1.9, max: 3, noNaN: true }).map((power) => `~${(10 ** power).toPrecision(4)}`)],
  ['regions', fc.integer({ min: 1, max: 3 })],
  [
    'samples',
    fc.oneof(fc.integer({ min: 1, max: 3 }), fc.constant([{ name: 'sample A' }, { name: 'sample B', regions: 2 }])),
  ],
  ['instruments', fc.integer({ min: 1, max: 3 })],
  ['lines', fc.constantFrom(1, 64, 512)],
  ['pixels', fc.constantFrom(1, 256)],
  ['tip', named(KINDS)],
  ['hours', named(HOURS)],
  ['start', named(['Mo 09:00', 'Su 23:59'])],
  ['allocation', named(['3 sessions', '9 h', '0.5 h', '2000 h'])],
  ['after', named(['1 image', '2.5 images', '40 min', '5 mm'])],
  ['newApex', fc.constantFrom(0, 0.3, 0.5)],
  ['breaks', fc.constantFrom(0, 0.05, 0.5)],
  ['attempts', fc.constantFrom(1, 4, 30)],
  ['tries', fc.constantFrom(0, 1, 3)],
  ['every', fc.integer({ min: 1, max: 4 })],
  ['sites', ofKinds(fc.constantFrom(1, 5, 200))],
  ['dead', ofKinds(fc.constantFrom(0, 0.2, 0.9))],
  ['extent', fc.constantFrom('1 mm', '40 um')],
  ['uncertainty', fc.constant(undefined)],
  ['seed', fc.string({ minLength: 1, maxLength: 20 })],
  ['title', fc.string({ unit: 'grapheme', minLength: 1, maxLength: 60 })],
  ['accept', fc.constantFrom(0, 0, 0.01, 0.3, 0.8)],
  ['set', fc.subarray([...SETTINGS], { maxLength: 2 }).map((pairs) => Object.fromEntries(pairs))],
  [
    'sources',
    fc.constantFrom({}, { plan: 'a notebook' }, { tips: 'a log', workflows: 'a stop watch', noticing: 'a guess' }),
  ],
  ['ranges', fc.constantFrom({}, { 'noticing.review.sensitivity': [0.5, 0.9] })],
]);

const numbered = (list: unknown, what: string): unknown =>
  Array.isArray(list)
    ? list.map((each: unknown, i) => (isData(each) ? { ...each, name: `${what} ${String(i + 1)}` } : each))
    : list;

function part(name: keyof typeof scenarioSchema.shape): fc.Arbitrary<unknown> {
  return written(scenarioSchema.shape[name], HINTS, name);
}

const tips = ofKinds(
  part('tips')
    .chain(() => written(tipSchema(), HINTS))
    .map((tip) =>
      isData(tip) && Array.isArray(tip['hazards']) ? { ...tip, hazards: tip['hazards'].map(inUnitOf) } : tip,
    ),
);

function tipSchema() {
  return scenarioSchema.shape.tips.valueType;
}

/** A chip has sites for the kinds of a plan, and masses are given together; that it is refused else, other tests see. */
function soundHop(workflows: unknown): unknown {
  const hop = isData(workflows) ? workflows['hop'] : undefined;
  const { mass, effectiveMass, ...rest } = isData(hop) ? hop : {};
  const chip = isData(rest['chip']) ? rest['chip'] : {};
  const masses = mass === undefined || effectiveMass === undefined ? {} : { mass: '1 ng', effectiveMass: '20 ng' };
  return {
    ...(isData(workflows) ? workflows : {}),
    hop: { ...rest, ...masses, chip: { ...chip, sites: chip['sites'] ?? { sharp: 30, soft: 5 } } },
  };
}

const maybe = (name: keyof typeof scenarioSchema.shape) => fc.option(part(name), { nil: undefined, freq: 2 });

/** Scenarios of any shape the schema knows, of small plans; some of them cannot be carried out, which is said of them. */
export const scenarios: fc.Arbitrary<Data> = fc
  .record({
    title: part('title'),
    about: maybe('about'),
    seed: maybe('seed'),
    plan: part('plan').map((plan) => (isData(plan) ? { ...plan, passes: numbered(plan['passes'], 'pass') } : plan)),
    tips,
    workflows: part('workflows').map(soundHop),
    noticing: maybe('noticing'),
    rules: maybe('rules'),
    stock: maybe('stock'),
    pace: maybe('pace'),
    instruments: maybe('instruments'),
    operators: maybe('operators'),
    bookings: maybe('bookings'),
    costs: maybe('costs'),
    sources: maybe('sources'),
    ranges: maybe('ranges'),
    strategies: part('strategies').map((list) => numbered(list, 'way')),
  })
  .map((scenario) => Object.fromEntries(Object.entries(scenario).filter(([, value]) => value !== undefined)));
