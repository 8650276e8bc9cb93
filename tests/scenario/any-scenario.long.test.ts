import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import { expandPlan } from '../../src/scenario/plan.js';
import { loadScenario } from '../../src/scenario/load.js';
import { filled, load, SAMPLE } from './sample.js';
import { perhapsNone } from '../support/non-empty.js';

const HOURS = { s: 1, min: 60, h: 3600 } as const;
const LENGTHS = { nm: 1, um: 1000, µm: 1000 } as const;

/** A quantity as written, with the number that it must become. */
function quantityOf<U extends string>(units: Readonly<Record<U, number>>, most: number) {
  const entries: readonly (readonly [string, unknown])[] = Object.entries(units);
  return fc.tuple(fc.integer({ min: 1, max: most }), fc.constantFrom(...entries)).map(([tenths, [unit, size]]) => ({
    written: `${tenths / 10} ${unit}`,
    inside: (tenths * Number(size)) / 10,
  }));
}

const life = fc.oneof(
  fc.constant({ distribution: 'exponential', mean: 40 }),
  fc.record({
    distribution: fc.constant('weibull'),
    shape: fc.double({ min: 0.5, max: 5, noNaN: true }),
    scale: fc.integer({ min: 1, max: 500 }),
  }),
  fc.record({ distribution: fc.constant('probability'), perUnit: fc.double({ min: 0, max: 1, noNaN: true }) }),
);

const scenarios = fc.record({
  regions: fc.integer({ min: 1, max: 30 }),
  order: fc.constantFrom('region-first', 'tip-first'),
  sizes: fc.array(
    quantityOf(LENGTHS, 400).filter(({ inside }) => inside >= 1),
    { minLength: 1, maxLength: 4 },
  ),
  lines: fc.integer({ min: 1, max: 1024 }),
  kinds: fc.integer({ min: 1, max: 3 }),
  step: quantityOf(HOURS, 100),
  life,
});

describe('any scenario without fault', () => {
  it('loads, with every quantity in the unit used inside, and plans every image once', () => {
    fc.assert(
      fc.property(scenarios, ({ regions, order, sizes, lines, kinds, step, life: lived }) => {
        const kindNames = Array.from({ length: kinds }, (_, i) => `kind ${i}`);
        const scenario = load(
          stringify({
            title: 'any',
            plan: {
              regions,
              order,
              passes: sizes.map(({ written }, i) => ({
                name: `pass ${i}`,
                tip: `kind ${i % kinds}`,
                size: written,
                lines,
              })),
            },
            tips: Object.fromEntries(
              kindNames.map((kind) => [kind, { hazards: [{ cause: 'breakage', per: 'image', life: lived }] }]),
            ),
            workflows: { swap: { steps: { exchange: step.written } } },
            strategies: [{ name: 'one', workflow: 'swap' }],
          }),
        );
        expect(scenario.base.plan.passes.map(({ size }) => size)).toEqual(
          sizes.map(({ inside }) => Number(inside.toPrecision(15))),
        );
        expect(scenario.base.workflows.swap.steps.exchange).toMatchObject({ fixed: step.inside });
        expect(scenario.base.tips['kind 0'].hazards.at(0)?.life).toEqual(lived);
        const plan = expandPlan(scenario.base);
        expect(new Set(plan.map(({ region, pass }) => `${region} ${pass}`)).size).toBe(regions * sizes.length);
        expect(plan).toHaveLength(regions * sizes.length);
      }),
      { seed: 21, numRuns: 60 },
    );
  });
});

/** Paths of every value of plain data. */
function pathsIn(data: unknown, path: readonly (string | number)[] = []): readonly (readonly (string | number)[])[] {
  const below: readonly (readonly [string | number, unknown])[] = Array.isArray(data)
    ? data.map((item: unknown, index) => [index, item] as const)
    : typeof data === 'object' && data !== null
      ? Object.entries(data)
      : [];
  return [path, ...below.flatMap(([key, value]) => pathsIn(value, [...path, key]))];
}

/** Plain data with one value put for another. */
function replaced(data: unknown, path: readonly (string | number)[], value: unknown): unknown {
  const [key, ...rest] = path;
  if (path.length === 0) return value;
  if (Array.isArray(data))
    return data.map((item: unknown, index) => (index === key ? replaced(item, rest, value) : item));
  if (typeof data !== 'object' || data === null) return data;
  return Object.fromEntries(
    Object.entries(data).map(([name, held]) => [name, name === key ? replaced(held, rest, value) : held]),
  );
}

describe('a scenario with anything at all in the place of a value', () => {
  const raw = filled(SAMPLE);
  const odd = fc.oneof(
    fc.constantFrom<unknown>(
      null,
      [],
      {},
      [[[]]],
      { usual: '1 min' },
      true,
      -1,
      0,
      1e300,
      '',
      '5 m',
      'toString',
      '\u{1F4A5}',
      'a'.repeat(5000),
    ),
    fc.jsonValue({ maxDepth: 2 }),
  );

  it('loads, or gives faults with places and in plain words, and never throws', () => {
    fc.assert(
      fc.property(fc.constantFrom(...pathsIn(raw)), odd, (path, value) => {
        const result = loadScenario(stringify(replaced(raw, path, value)));
        const faults = result.ok ? result.warnings : result.faults;
        expect(result.ok || faults.length > 0).toBe(true);
        for (const { line, column, message } of perhapsNone(faults)) {
          expect(line >= 1 && column >= 1).toBe(true);
          expect(message).not.toMatch(/Invalid|undefined|\[object/u);
        }
      }),
      { seed: 22, numRuns: 300 },
    );
  });
});
