import { describe, expect, it } from 'vitest';
import { withValue } from '../../src/scenario/load.js';
import { eachUnknownOnce } from '../../src/scenario/twins.js';
import { withEnd } from '../../src/scenario/ends.js';
import type { RegisterValue } from '../../src/scenario/register.js';
import { altered, load, SAMPLE } from './sample.js';
import { nonEmpty } from '../support/non-empty.js';

const RICH = altered([
  'strategies:',
  `rules: {recondition: {tries: 1, newApex: 0.9}}
sources:
  tips.sharp.hazards.breakage: our own log of last year
  workflows.swap.steps.exchange: usual practice, timed by nobody
  tips.coated.price: assumed from an old catalogue
ranges:
  tips.coated.price: [40 EUR, 90 EUR]
strategies:`,
]);

function valueAt(path: string, text = RICH): RegisterValue {
  const found = load(text).register.find((value) => value.path === path);
  if (found === undefined) throw new Error(`the register has no ${path}`);
  return found;
}

describe('the register', () => {
  it('has every value once, under a path that sets it', () => {
    const loaded = load(RICH);
    const paths = loaded.register.map(({ path }) => path);
    expect(new Set(paths).size).toBe(paths.length);
    for (const path of [
      'plan.passes.topography.size',
      'tips.sharp.hazards.breakage.life.mean',
      'workflows.hop.steps.prepare',
      'workflows.hop.chip.sites.sharp',
      'costs.operatorHour',
    ])
      expect(paths).toContain(path);
  });

  it.each([
    ['plan.regions', 'Regions of interest of each sample'],
    [
      'plan.passes.topography.dip',
      'Resolvable dip, topography; smallest dip between two features that the noise lets one see',
    ],
    ['tips.sharp.radius.nominal', 'Median apex radius of a new tip, sharp'],
    ['tips.sharp.hazards.breakage.life.mean', 'Mean lifetime in millimetres, breakage of sharp'],
    ['tips.sharp.hazards.fouling.life.perUnit', 'Probability per image, contamination of sharp'],
    [
      'tips.sharp.hazards.chipping.life.late.scale',
      'Approaches by which 63.2 % would have failed of this term alone, chipping of sharp, late phase',
    ],
    ['tips.coated.hazards.coating.life.scale', 'Hours by which 63.2 % have failed, coating loss of coated'],
    ['tips.coated.price', 'Price of one bought probe, coated'],
    ['workflows.hop.chip.sites.coated', 'Tips (sites) on a chip, coated'],
    ['stock.tips.sharp', 'At hand, sharp; no more come'],
    [
      'workflows.swap.steps.exchange.p90',
      'Exchange the probe by hand: 90th percentile of the time; in vacuum with the transfer',
    ],
    ['strategies.hopping.set.tips.sharp.radius.nominal', 'Median apex radius of a new tip, sharp (hopping)'],
  ])('says of %s what it is and to what it belongs', (path, description) => {
    const rich = altered(
      [
        '  coated:\n',
        '      - {cause: fouling, per: image, life: {distribution: probability, perUnit: 0.08}}\n      - {cause: chipping, per: approach, life: {distribution: bathtub, early: {shape: 0.5, scale: 900}, late: {shape: 3, scale: 700}}}\n  coated:\n',
      ],
      ['strategies:', 'stock: {tips: {sharp: 9}}\nstrategies:'],
    );
    expect(valueAt(path, `${rich}    set: {tips.sharp.radius.nominal: 9 nm}\n`).description).toBe(description);
  });

  it('counts a value under a source, and all that stands below it, as given', () => {
    expect(valueAt('tips.sharp.hazards.breakage.life.mean')).toMatchObject({
      value: '800 mm',
      standing: 'given source',
      source: 'our own log of last year',
      note: null,
      isDefault: false,
      range: { low: '160 mm', high: '4000 mm', text: '160 mm to 4000 mm' },
    });
  });

  it('counts a default as published where its source is', () => {
    expect(valueAt('workflows.hop.chip.pitch')).toMatchObject({
      standing: 'published',
      isDefault: true,
      source: 'about 100 um; 92 um, from memory, in Vettiger et al., IBM J. Res. Dev. 44, 323 (2000)',
    });
  });

  it('counts usual practice and what is called assumed as assumed, and keeps the words as a note', () => {
    expect(valueAt('workflows.swap.steps.exchange.usual')).toMatchObject({
      standing: 'assumed',
      source: null,
      note: 'usual practice, timed by nobody',
      isDefault: true,
    });
    expect(valueAt('workflows.swap.steps.settle.p90')).toMatchObject({
      standing: 'assumed',
      source: null,
      note: 'usual practice, no source',
    });
    expect(valueAt('tips.coated.price')).toMatchObject({
      standing: 'assumed',
      source: null,
      note: 'assumed from an old catalogue',
    });
    expect(valueAt('workflows.hop.steps.prepare')).toMatchObject({
      standing: 'assumed',
      source: null,
      note: null,
      isDefault: false,
    });
  });

  it.each([
    'plan.regions',
    'plan.passes.topography.lines',
    'noticing.attempts',
    'pace.scan',
    'rules.cleanFirst.tries',
    'instruments',
    'operators.hours',
    'workflows.hop.chip.sites.sharp',
  ])('counts %s as chosen, without a range', (path) => {
    expect(valueAt(path)).toMatchObject({ standing: 'choice', source: null, range: null });
  });

  it('counts what is nothing, and so scales with nothing, as chosen', () => {
    expect(valueAt('costs.operatorHour')).toMatchObject({ value: '0 EUR', standing: 'choice', range: null });
  });

  it('takes a range that the scenario gives before that of the schema', () => {
    expect(valueAt('tips.coated.price').range).toEqual({ low: '40 EUR', high: '90 EUR', text: '40 EUR to 90 EUR' });
    expect(valueAt('tips.coated.price', SAMPLE).range).toEqual({
      low: '30 EUR',
      high: '120 EUR',
      text: '30 EUR to 120 EUR',
    });
  });

  it('keeps ranges within what the schema allows', () => {
    expect(
      valueAt(
        'workflows.swap.mishandling.probability',
        altered(['  hop:\n', '  swap: {mishandling: {probability: 0.5}}\n  hop:\n']),
      ).range,
    ).toEqual({ low: 0.1, high: 0.95, text: '0.1 to 0.95' });
  });

  it('widens an interval to hold the value that the scenario gives', () => {
    expect(
      valueAt(
        'workflows.hop.steps.prepare.success',
        altered(['prepare: 45 min', 'prepare: {fixed: 45 min, success: 0.2}']),
      ).range,
    ).toEqual({ low: 0.2, high: 1, text: '0.2 to 1' });
  });

  it('lets no end of a range pass a value that must stay above or below it', () => {
    expect(valueAt('workflows.swap.steps.exchange.p90').range).toEqual({
      low: '3 min',
      high: '10 min',
      text: '3 min to 10 min',
    });
    expect(valueAt('rules.recondition.newApex').range).toEqual({ low: 0.1, high: 0.9, text: '0.1 to 0.9' });
    expect(valueAt('rules.recondition.breaks').range).toEqual({ low: 0.01, high: 0.1, text: '0.01 to 0.1' });
  });

  it('has only ends that can be put in place of the value', () => {
    const loaded = load(RICH);
    const ends = loaded.register.flatMap((entry) =>
      entry.range === null ? [] : [entry.range.low, entry.range.high].map((end) => ({ entry, end })),
    );
    for (const { entry, end } of nonEmpty(ends))
      expect([entry.path, end, withEnd(loaded, entry, end).ok]).toEqual([entry.path, end, true]);
  });

  it('carries the spread of a step along with its usual time, and the same act of the other workflow', () => {
    const loaded = load(SAMPLE);
    const at = (path: string, end: string) => {
      const entry = loaded.register.find((value) => value.path === path);
      const result = entry === undefined ? undefined : withEnd(loaded, entry, end);
      if (result?.ok !== true) throw new Error(`${path} cannot be ${end}`);
      return result.scenario.base.workflows;
    };
    const settled = at('workflows.swap.steps.settle.usual', '20 min');
    expect(settled.swap.steps.settle).toMatchObject({ usual: 1200, p90: 2400 });
    expect(settled.hop.steps.settle).toEqual(loaded.base.workflows.hop.steps.settle);
    const located = at('workflows.hop.steps.locate.usual', '2 min');
    for (const { steps } of [located.swap, located.hop]) expect(steps.locate).toMatchObject({ usual: 120, p90: 270 });
  });

  it('carries how hands disturb and the steady drift along in the other workflow, and not how moves do', () => {
    const shared = 'handling: {rate: 1 nm/s}, steady: 0.02 nm/s';
    const loaded = load(
      altered(['  hop:\n', `  swap: {drift: {${shared}}}\n  hop:\n    drift: {${shared}, move: {rate: 1 nm/s}}\n`]),
    );
    const at = (path: string, end: string) => {
      const entry = loaded.register.find((value) => value.path === path);
      const result = entry === undefined ? undefined : withEnd(loaded, entry, end);
      if (result?.ok !== true) throw new Error(`${path} cannot be ${end}`);
      const { swap, hop } = result.scenario.base.workflows;
      return [swap.drift, hop.drift];
    };
    for (const drift of nonEmpty(at('workflows.swap.drift.handling.rate', '2 nm/s')))
      expect(drift?.handling?.rate).toBe(2);
    for (const drift of nonEmpty(at('workflows.hop.drift.steady', '0.1 nm/s'))) expect(drift?.steady).toBe(0.1);
    expect(at('workflows.hop.drift.move.rate', '2 nm/s')[0]?.handling?.rate).toBe(1);
  });

  it('counts what both workflows have alike as one unknown, and as two where they have it otherwise', () => {
    const unknowns = (swap: string) => {
      const drifts = `  swap: {drift: {handling: {rate: ${swap}}}}\n  hop:\n    drift: {handling: {rate: 1 nm/s}}\n`;
      const once = eachUnknownOnce(load(altered(['  hop:\n', drifts])).register);
      return once.map(({ path }) => path).filter((path) => path.endsWith('.drift.handling.rate'));
    };
    expect(unknowns('1 nm/s')).toEqual(['workflows.swap.drift.handling.rate']);
    expect(unknowns('2 nm/s')).toEqual(['workflows.swap.drift.handling.rate', 'workflows.hop.drift.handling.rate']);
  });
});

describe('one value changed', () => {
  function changed(text: string, path: string, value: number | string) {
    const result = withValue(load(text), path, value);
    if (!result.ok) throw new Error(result.message);
    return result.scenario;
  }

  it('changes the shared part and every strategy', () => {
    const scenario = changed(SAMPLE, 'workflows.swap.steps.exchange.p90', '8 min');
    expect(scenario.base.workflows.swap.steps.exchange).toMatchObject({ usual: 180, p90: 480 });
    for (const { settings } of nonEmpty(scenario.strategies))
      expect(settings.workflows).toEqual(scenario.base.workflows);
  });

  it('leaves a strategy alone that overrides the value itself', () => {
    const text = `${SAMPLE}    set: {workflows.hop.specimenLoss: 0.01}\n`;
    const scenario = changed(text, 'workflows.hop.specimenLoss', 0.2);
    expect(scenario.strategies.map(({ settings }) => settings.workflows.hop.specimenLoss)).toEqual([0.2, 0.01]);
  });

  it('changes nothing else, and nothing in the scenario that it was made from', () => {
    const loaded = load(SAMPLE);
    const before = structuredClone(loaded);
    const result = withValue(loaded, 'plan.passes.topography.load', '3 nN');
    expect(loaded).toEqual(before);
    const expected = {
      ...before.base,
      plan: {
        ...before.base.plan,
        passes: before.base.plan.passes.map((pass, i) => (i === 0 ? { ...pass, load: 3 } : pass)),
      },
    };
    expect(result.ok ? result.scenario.base : null).toEqual(expected);
  });

  it('goes over to another thread as plain data', () => {
    const loaded = load(SAMPLE);
    expect(withValue(structuredClone(loaded), 'instruments', 2)).toEqual(withValue(loaded, 'instruments', 2));
  });

  it.each([
    ['plan.regions', -1, 'read `-1`; at least 1 is wanted'],
    ['plan.regoins', 5, 'did you mean `plan.regions`?'],
    ['plan.passes.topography.load', '3 nm', 'does not measure a force'],
  ])('to what %s cannot be gives a fault', (path, value, message) => {
    const result = withValue(load(SAMPLE), path, value);
    expect(result.ok ? '' : result.message).toContain(message);
  });
});
