import { describe, expect, it } from 'vitest';
import {
  type Answers,
  ENVIRONMENTS,
  type Key,
  movedDefaults,
  NO_ANSWERS,
  pathsOf,
  questions,
  withKnown,
  withOwn,
} from '../../src/guide/questions.js';
import { scenarioText } from '../../src/guide/scenario-text.js';
import { loadScenario, type LoadedScenario } from '../../src/scenario/load.js';
import { nonEmpty } from '../support/non-empty.js';

function loaded(answers: Answers): LoadedScenario {
  const read = loadScenario(scenarioText(answers));
  const said = (read.ok ? read.warnings : read.faults).map(({ path, message }) => `${path}: ${message}`);
  expect(said).toEqual([]);
  if (!read.ok) throw new Error('the scenario is sound');
  return read.scenario;
}

const own = (...answers: readonly (readonly [Key, string])[]): Answers => ({
  ...NO_ANSWERS,
  own: new Map(answers),
});

/** What the assumptions have of a place. */
const entryAt = (answers: Answers, path: string) => loaded(answers).register.find((entry) => entry.path === path);

describe('a scenario made from answers', () => {
  it.each(ENVIRONMENTS)('is sound and without warnings in %s, as usual and with nothing known', (environment) => {
    loaded(own(['environment', environment]));
    for (const kinds of ['1', '3']) {
      const given = own(['environment', environment], ['imageKinds', kinds], ['tipKinds', kinds]);
      loaded(given);
      const open = questions(given).filter(({ within }) => within !== undefined);
      loaded({ ...given, unknown: new Set(open.map(({ key }) => key)) });
    }
  });

  it('has each answer where the question says that it stands', () => {
    const { register } = loaded(own(['regions', '7'], ['tip', 'fine tip'], ['exchange', '6 min'], ['dead', '0.3']));
    const valueAt = (path: string) => register.find((entry) => entry.path === path)?.value;
    expect(valueAt('plan.regions')).toBe('7');
    expect(valueAt('workflows.swap.steps.exchange.usual')).toBe('6 min');
    expect(valueAt('workflows.hop.chip.dead.fine tip')).toBe('0.3');
  });

  it('names the place of every value that may be unknown as the assumptions have it', () => {
    const given = own(['imageKinds', '2'], ['tipKinds', '2']);
    const paths = loaded(given).register.map(({ path }) => path);
    for (const question of nonEmpty(questions(given).filter(({ within }) => within !== undefined)))
      expect(paths).toEqual(expect.arrayContaining([...pathsOf(question, given)]));
  });

  it('has a pass for each kind of image and a description of each kind of tip, further ones with defaults of their own', () => {
    const { base } = loaded(
      own(
        ['imageKinds', '3'],
        ['lines', '300'],
        ['image 2', 'fine'],
        ['size 2', '200 nm'],
        ['tipKinds', '2'],
        ['tipOf 3', 'sharp'],
      ),
    );
    expect(base.plan.passes).toMatchObject([
      { name: 'image', tip: 'sharp', lines: 300 },
      { name: 'fine', tip: 'sturdy', lines: 256 },
      { name: 'third kind', tip: 'sharp', lines: 256 },
    ]);
    expect(base.plan.passes[1].size).toBeCloseTo(200, 6);
    expect(Object.keys(base.tips)).toEqual(['sharp', 'sturdy']);
    expect(base.tips['sturdy'].hazards).toEqual(base.tips['sharp'].hazards);
  });

  it('asks of what is common to all kinds of tips once', () => {
    const asked = questions(own(['imageKinds', '2'], ['tipKinds', '2'])).map(({ key }) => key);
    expect(asked).toEqual(expect.arrayContaining(['radius', 'radius 2', 'sites 2', 'tipOf 2', 'breakage']));
    expect(asked).not.toContain('breakage 2');
    expect(questions(NO_ANSWERS)).toHaveLength(28);
  });

  it('tries what is unknown over a wider range, and says so; what is answered counts as an estimate', () => {
    const path = 'tips.sharp.hazards.fouling.life.mean';
    expect(entryAt(withKnown(NO_ANSWERS, 'contamination', 'unknown'), path)).toMatchObject({
      standing: 'assumed',
      range: { low: '12 images', high: '300 images' },
    });
    expect(entryAt(own(['contamination', '90 images']), path)).toMatchObject({
      ...{ standing: 'assumed', value: '90 images', note: 'estimate, as answered at the start' },
    });
  });

  it.each([
    ['contamination', 'tips.sharp.hazards.fouling.life.mean'],
    ['exchange', 'workflows.swap.steps.exchange.usual'],
    ['warmUp', 'workflows.hop.steps.warmUp.usual'],
    ['hopSettle', 'workflows.hop.steps.settle.usual'],
    ['chip', 'workflows.hop.chip.price'],
  ])('names a source for what was measured here, so that it is tried over no range: %s', (key, path) => {
    expect(entryAt(NO_ANSWERS, path)).toMatchObject({ standing: 'assumed' });
    expect(entryAt(withKnown(NO_ANSWERS, key, 'measured'), path)).toMatchObject({
      ...{ standing: 'given source', source: 'measured here, as answered at the start' },
    });
  });

  it('has one answer to how long warming up takes in both workflows, and by itself no more than an hour in vacuum', () => {
    const both = (answers: Answers) =>
      ['swap', 'hop'].map((workflow) => entryAt(answers, `workflows.${workflow}.steps.warmUp.usual`)?.value);
    expect(both(NO_ANSWERS)).toEqual(['20 min', '20 min']);
    expect(both(own(['environment', 'vacuum']))).toEqual(['60 min', '60 min']);
    expect(both(own(['environment', 'vacuum'], ['warmUp', '3 h']))).toEqual(['3 h', '3 h']);
  });

  it.each([
    ['air', '1 um', '256', '10 nm'],
    ['air', '5 um', '256', '40 nm'],
    ['liquid', '20 um', '128', '320 nm'],
    ['vacuum', '300 nm', '256', '8 nm'],
    ['vacuum', '2 um', '64', '63 nm'],
    ['air', '0.1 mm', '96', '2.1 um'],
    ['air', '5000nm', '1000', '10 nm'],
  ])(
    'asks in %s of an image of %s in %s lines for no less than it can resolve',
    (environment, size, lines, distance) => {
      const given = own(['environment', environment], ['size', size], ['lines', lines]);
      expect(entryAt(given, 'plan.passes.image.neededResolution')?.value).toBe(distance);
    },
  );

  it('says beside a value which answer it was, so that the comment stays true where another is put there', () => {
    const text = scenarioText(withKnown(own(['samples', '3'], ['price', '20 EUR']), 'exchange', 'measured'));
    expect(text).toContain('samples: 3 # your answer: 3\n');
    expect(text).toContain('regions: 6 # default 6: an example\n');
    expect(text).toContain('price: 20 EUR # your answer: 20 EUR\n');
    expect(text).toContain('# measured here: 4 min\n');
  });

  it('holds a title full of signs as it was typed', () => {
    const title = `"Größe": #1 & {x} 'a' \\ *b`;
    expect(loaded(own(['title', title])).base.title).toBe(title);
  });
});

describe('a default that another answer changes', () => {
  const moved = (before: Answers, after: Answers) =>
    movedDefaults(questions(before), before, after).map(({ question, was, now }) => [question.key, was, now]);

  it('is told with what it was', () => {
    expect(moved(NO_ANSWERS, own(['size', '5 um']))).toEqual([['resolution', '10 nm', '40 nm']]);
    expect(moved(NO_ANSWERS, own(['environment', 'vacuum']))).toEqual(
      expect.arrayContaining([
        ['size', '1 um', '300 nm'],
        ['price', '25 EUR', '80 EUR'],
        ['allocation', '1 session', '3 sessions'],
      ]),
    );
  });

  it('is none where it was answered, nor of another kind', () => {
    const two = own(['imageKinds', '2'], ['resolution', '30 nm'], ['price', '40 EUR']);
    expect(moved(two, withOwn(two, 'size', '5 um'))).toEqual([]);
    expect(moved(two, withOwn(two, 'environment', 'vacuum')).map(([key]) => key)).not.toContain('price');
    expect(moved(two, withOwn(two, 'lines', '512'))).toEqual([]);
  });
});
