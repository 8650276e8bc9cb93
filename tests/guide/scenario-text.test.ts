import { describe, expect, it } from 'vitest';
import { type Answers, ENVIRONMENTS, type Key, NO_ANSWERS, pathsOf, questions } from '../../src/guide/questions.js';
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
  own: new Map(answers),
  unknown: new Set(),
});

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

  it('has a pass for each kind of image and a description of each kind of tip, further ones like the first unless answered', () => {
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
      { name: 'fine', tip: 'sturdy', lines: 300 },
      { name: 'third kind', tip: 'sharp', lines: 300 },
    ]);
    expect(base.plan.passes[1].size).toBeCloseTo(200, 6);
    expect(Object.keys(base.tips)).toEqual(['sharp', 'sturdy']);
    expect(base.tips['sturdy'].hazards).toEqual(base.tips['sharp'].hazards);
  });

  it('asks of what is common to all kinds of tips once', () => {
    const asked = questions(own(['imageKinds', '2'], ['tipKinds', '2'])).map(({ key }) => key);
    expect(asked).toEqual(expect.arrayContaining(['radius', 'radius 2', 'sites 2', 'tipOf 2', 'breakage']));
    expect(asked).not.toContain('breakage 2');
    expect(questions(NO_ANSWERS)).toHaveLength(26);
  });

  it('tries what is unknown over a wider range, and says so; what is answered counts as an estimate', () => {
    const path = 'tips.sharp.hazards.fouling.life.mean';
    const find = (answers: Answers) => loaded(answers).register.find((entry) => entry.path === path);
    expect(find({ own: new Map(), unknown: new Set(['contamination']) })).toMatchObject({
      standing: 'assumed',
      range: { low: '12 images', high: '300 images' },
    });
    expect(find(own(['contamination', '90 images']))).toMatchObject({
      ...{ standing: 'assumed', value: '90 images', note: 'estimate, as answered at the start' },
    });
  });

  it('holds a title full of signs as it was typed', () => {
    const title = `"Größe": #1 & {x} 'a' \\ *b`;
    expect(loaded(own(['title', title])).base.title).toBe(title);
  });
});
