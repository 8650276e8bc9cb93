import { describe, expect, it } from 'vitest';
import { withValue } from '../../src/scenario/load.js';
import type { RegisterValue } from '../../src/scenario/register.js';
import { withEnd } from '../../src/scenario/ends.js';
import { altered, faultsOf, load, SAMPLE } from './sample.js';
import { nonEmpty, perhapsNone } from '../support/non-empty.js';

/** The sample, whose strategy `hopping` has values of its own. */
const OWN = `${SAMPLE}    rules: {after: 20 images, cleanFirst: {success: 0.7}}
    pace: {scan: 1.2}
    set:
      plan.passes.0.load: 4 nN
      tips.sharp.hazards.breakage.life.mean: 0.8 m
      tips.sharp.blunting: {wear: {archardK: 0.02, hardness: 12 GPa}}
      plan.order: tip-first
      tips.coated.price: 90 EUR
sources:
  tips.sharp.hazards.breakage: our own log of last year
  tips.coated.price: list of the seller
  strategies.hopping.set.tips.sharp.blunting.wear.archardK: a wear test of ours
ranges:
  strategies.hopping.set.tips.coated.price: [80 EUR, 100 EUR]
`;

function ownIn(text: string): readonly RegisterValue[] {
  return load(text).register.filter(({ path }) => path.startsWith('strategies.'));
}

function ownAt(path: string, text = OWN): RegisterValue {
  const found = ownIn(text).find((value) => value.path === `strategies.hopping.${path}`);
  if (found === undefined) throw new Error(`the register has no ${path}`);
  return found;
}

describe('what a strategy puts in the place of shared values', () => {
  it('is in the assumptions, each single value under a path that says whose it is', () => {
    expect(ownIn(OWN).map(({ path, value }) => `${path} = ${value}`)).toEqual([
      'strategies.hopping.set.plan.passes.topography.load = 4 nN',
      'strategies.hopping.set.tips.sharp.blunting.halfAngle = 20 deg',
      'strategies.hopping.set.tips.sharp.blunting.wear.archardK = 0.02',
      'strategies.hopping.set.tips.sharp.blunting.wear.hardness = 12 GPa',
      'strategies.hopping.set.tips.sharp.blunting.wear.geometricSd = 1.5',
      'strategies.hopping.set.tips.sharp.hazards.breakage.life.mean = 0.8 m',
      'strategies.hopping.set.tips.coated.price = 90 EUR',
      'strategies.hopping.rules.after = 20 images',
      'strategies.hopping.rules.cleanFirst.success = 0.7',
      'strategies.hopping.pace.scan = 1.2',
    ]);
    expect(ownIn(SAMPLE)).toEqual([]);
  });

  it('is described by its value and the strategy', () => {
    expect(ownAt('set.tips.coated.price').description).toBe('Price of one bought probe, coated (hopping)');
  });

  it('has the source that is given for it, or that of a shared value which it repeats, and no other', () => {
    expect(ownAt('set.tips.sharp.blunting.wear.archardK')).toMatchObject({
      standing: 'given source',
      source: 'a wear test of ours',
    });
    expect(ownAt('set.tips.sharp.hazards.breakage.life.mean')).toMatchObject({
      standing: 'given source',
      source: 'our own log of last year',
    });
    expect(ownAt('set.tips.coated.price')).toMatchObject({ standing: 'assumed', source: null, note: null });
    const different = OWN.replace('0.8 m\n', '0.9 m\n');
    expect(ownAt('set.tips.sharp.hazards.breakage.life.mean', different)).toMatchObject({ standing: 'assumed' });
  });

  it('has one source for all of a strategy where the scenario gives it so', () => {
    const text = OWN.replace('sources:\n', 'sources:\n  strategies.hopping.set: a table of ours\n');
    expect(ownAt('set.tips.coated.price', text).source).toBe('a table of ours');
    expect(ownAt('set.tips.sharp.blunting.wear.archardK', text).source).toBe('a wear test of ours');
  });

  it('has a range around the value that the strategy gives, or the one given for it', () => {
    expect(ownAt('set.tips.sharp.hazards.breakage.life.mean').range?.text).toBe('0.16 m to 4 m');
    expect(ownAt('set.tips.coated.price').range?.text).toBe('80 EUR to 100 EUR');
    expect(ownAt('rules.cleanFirst.success')).toMatchObject({ standing: 'assumed', range: { text: '0.3 to 0.7' } });
  });

  it('is chosen where the shared value would be', () => {
    for (const path of ['rules.after', 'pace.scan']) expect(ownAt(path).standing).toBe('choice');
  });

  it('is a default where it takes the shared value away', () => {
    const text = `${altered(['  hop:\n', '  swap: {mishandling: {probability: 0.1}}\n  hop:\n'])}    set: {workflows.swap.mishandling.probability: ~}\n`;
    expect(ownAt('set.workflows.swap.mishandling.probability', text)).toMatchObject({
      value: '0.02',
      isDefault: true,
      standing: 'assumed',
      note: 'assumed',
    });
  });

  it('is not what moves up where an item of a list is taken away', () => {
    const two = altered([
      'life: {distribution: exponential, mean: 800 mm}',
      'life: {distribution: exponential, mean: 800 mm}\n      - {cause: fouling, per: image, life: {distribution: exponential, mean: 30}}',
    ]);
    const text = `${two}    set:\n      tips.sharp.hazards.fouling.life.mean: 40\n      tips.sharp.hazards.breakage: ~\n`;
    expect(ownIn(text).map(({ path }) => path)).toEqual([
      'strategies.hopping.set.tips.sharp.hazards.fouling.life.mean',
    ]);
  });
});

describe('a path to a value of a strategy', () => {
  it.each([
    ['strategies.hopping.set.tips.sharp.price', 'the strategy `hopping` overrides nothing there'],
    ['strategies.hoping.set.tips.coated.price', 'did you mean `hopping`?'],
    ['strategies.hopping.set.tips.coated.prise', 'did you mean `tips.coated.price`?'],
  ])('must lead somewhere: %s', (path, message) => {
    const faults = faultsOf(OWN.replace('sources:\n', `sources:\n  ${path}: some book\n`));
    expect(faults.map((fault) => fault.message)).toEqual([expect.stringContaining(message)]);
  });

  it('must lead to a value within its range', () => {
    const faults = faultsOf(OWN.replace('[80 EUR, 100 EUR]', '[40 EUR, 80 EUR]'));
    expect(faults[0]?.message).toContain('a range that holds the value itself, `90 EUR`, is wanted');
  });
});

describe('one value of a strategy changed', () => {
  const loaded = load(OWN);

  it('changes that strategy alone', () => {
    const changed = withValue(loaded, 'strategies.hopping.set.tips.sharp.blunting.wear.archardK', 0.05);
    const strategies = changed.ok ? changed.scenario.strategies : [];
    expect(strategies[0]).toBe(loaded.strategies[0]);
    expect(strategies[1].settings.tips['sharp'].blunting?.wear).toEqual({
      archardK: 0.05,
      hardness: 12,
      geometricSd: 1.5,
    });
    expect(changed.ok && changed.scenario.base).toBe(loaded.base);
  });

  it('reaches its rules as well', () => {
    const changed = withValue(loaded, 'strategies.hopping.rules.cleanFirst.success', 0.4);
    expect(
      changed.ok ? changed.scenario.strategies.map(({ settings }) => settings.rules.cleanFirst.success) : [],
    ).toEqual([0.5, 0.4]);
  });

  it('may be at either end of every range', () => {
    for (const entry of nonEmpty(loaded.register)) {
      for (const end of perhapsNone(entry.range === null ? [] : [entry.range.low, entry.range.high]))
        expect([entry.path, end, withEnd(loaded, entry, end).ok]).toEqual([entry.path, end, true]);
    }
  });

  it('gives what a file with that value gives', () => {
    const path = 'strategies.hopping.set.tips.coated.price';
    const changed = withValue(loaded, path, '85 EUR');
    const written = load(OWN.replace('90 EUR', '85 EUR'));
    expect(changed.ok ? changed.scenario.strategies.map(({ settings }) => settings.tips) : []).toEqual(
      written.strategies.map(({ settings }) => settings.tips),
    );
  });

  it('leaves a strategy that overrides a shared value as the very object it was', () => {
    const changed = withValue(loaded, 'tips.coated.price', '70 EUR');
    expect(changed.ok && changed.scenario.strategies[1]).toBe(loaded.strategies[1]);
    expect(changed.ok && changed.scenario.strategies[0]?.settings.tips['coated']?.price).toBe(70);
  });
});
