import { describe, expect, it } from 'vitest';
import { loadScenario } from '../../../src/scenario/load.js';
import { hazardData } from '../../../src/studies/fit/hazard-data.js';
import { roundedAll } from '../../../src/studies/fit/hazard.js';
import { writeInto } from '../../../src/studies/fit/into.js';
import { FEW_LIVES, fittedLog } from '../../support/fitted-log.js';
import { nonEmpty } from '../../support/non-empty.js';
import { loadedOf } from '../../support/run.js';

const summary = fittedLog(FEW_LIVES);
const BREAKAGE = '{ cause: breakage, per: image, life: { distribution: probability, perUnit: 0.2 } }';

/** A scenario with these hazards of the sharp tips, as they stand after `hazards:`. */
function scenario(hazards: string, more = ''): string {
  return `# A plan for tests.
title: Three regions # of the wafer
plan:
  regions: 3
  passes:
    - { name: islands, tip: sharp,   size: 1 um, lines: 64 } # the islands alone
tips:
  sharp:
    hazards:${hazards}
workflows:
  hop:
    chip: { sites: { sharp: 20 } }
strategies:
  - { name: swap by hand, workflow: swap }
  - { name: hop, workflow: hop }
${more}`;
}

/** The text with the hazards, and what the scenario then holds. */
function filled(text: string) {
  const written = writeInto(text, summary);
  if (!written.ok) throw new Error(written.messages.join('; '));
  const loaded = loadedOf(written.text);
  const { tips, sources, ranges } = loaded.base;
  return { ...written, hazards: tips['sharp'].hazards, sources, ranges };
}

function refused(text: string): string {
  const written = writeInto(text, summary);
  return written.ok ? '' : written.messages.join('; ');
}

describe('hazards that are written into a scenario', () => {
  it.each([
    ['a block list', `\n      - ${BREAKAGE}`],
    [
      'a block list of block maps',
      `\n      - cause: breakage\n        per: image\n        life:\n          distribution: probability\n          perUnit: 0.2`,
    ],
    ['a flow list', ` [${BREAKAGE}]`],
    ['a flow list over several lines', ` [\n      ${BREAKAGE}, # mine\n    ]`],
    ['an empty list', ' []'],
    ['nothing at all', ''],
  ])('stand where there was %s, and the second time change no byte', (_, hazards) => {
    const once = filled(scenario(hazards));
    expect(once.hazards).toHaveLength(1);
    expect(once.hazards[0].life).toMatchObject({ distribution: summary.kinds[0].causes[0].hazard?.distribution });
    expect(once.sources['tips.sharp.hazards.breakage.life']).toMatch(/^log log\.csv, 14 tips, 10 events/);
    expect(filled(once.text).text).toBe(once.text);
  });

  it('leave hazards of other causes, comments and the layout of other lines as they were', () => {
    const fouling = '{ cause: fouling,  per: image, life: { distribution: probability, perUnit: 0.1 } } # by eye';
    const text = scenario(`\n      # how tips go\n      - ${fouling}\n      - ${BREAKAGE} # a guess`);
    const { text: written, hazards } = filled(text);
    expect(hazards.map(({ cause }) => cause)).toEqual(['fouling', 'breakage']);
    for (const line of nonEmpty(text.split('\n').filter((each) => !each.includes('breakage'))))
      expect(written).toContain(line);
    expect(written).toContain('# a guess');
  });

  it('keep the line ends of the file', () => {
    const text = scenario(`\n      - ${BREAKAGE} # mine`).replaceAll('\n', '\r\n');
    const { text: written } = filled(text);
    expect(written.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    expect(written).toContain('# mine\r\n');
    expect(written).toContain('title: Three regions # of the wafer\r\n');
  });

  it('replace, of several hazards of one cause, the one that counts the same use', () => {
    const hours = '{ cause: breakage, per: hour, life: { distribution: exponential, mean: 9 h } }';
    const { hazards } = filled(scenario(`\n      - ${hours}\n      - ${BREAKAGE}`));
    expect(hazards.map(({ per, life }) => [per, life.distribution])).toEqual([
      ['hour', 'exponential'],
      ['image', summary.kinds[0].causes[0].hazard?.distribution],
    ]);
  });

  it('are refused where several hazards of the cause may be meant', () => {
    const message = refused(scenario(`\n      - ${BREAKAGE}\n      - ${BREAKAGE}`));
    expect(message).toContain('tips.sharp.hazards has 2 hazards of breakage; which is meant?');
  });

  it('keep an acceleration that the log says nothing of', () => {
    const paced = BREAKAGE.replace(/ \}$/, ', acceleration: { pace: 1.2 } }');
    expect(filled(scenario(`\n      - ${paced}`)).hazards[0]).toMatchObject({ acceleration: { pace: 1.2 } });
  });

  it('take the place of a range and of a source that were said of the life before', () => {
    const path = 'tips.sharp.hazards.breakage.life';
    const said = `sources:\n  ${path}.perUnit: a guess\n  tips: a list\nranges:\n  ${path}.perUnit: [0.1, 0.3]\n`;
    const { sources, ranges } = filled(scenario(`\n      - ${BREAKAGE}`, said));
    expect(Object.keys(sources)).toEqual(['tips', path]);
    expect(ranges).toEqual({});
  });
});

describe('references of a scenario', () => {
  it('are kept where nothing of theirs is replaced', () => {
    const text = scenario(`\n      - ${BREAKAGE}`).replace('sharp: 20', 'sharp: &many 20');
    expect(filled(text).text).toContain('sharp: &many 20');
  });

  it.each([
    ['the whole list', ` &all\n      - ${BREAKAGE}`, ' *all', 'tips.sharp.hazards'],
    ['one hazard', `\n      - &one ${BREAKAGE}`, '\n      - *one', 'tips.sharp.hazards.breakage'],
  ])('are refused for %s, for what else refers to it would change too', (_, spare, hazards, path) => {
    const text = scenario(hazards).replace('tips:\n', `tips:\n  spare:\n    hazards:${spare}\n`);
    expect(refused(text)).toBe(`${path} is written as a reference; write it out`);
  });

  it('are refused where another value refers to one that would go', () => {
    const shared = BREAKAGE.replace('life: {', 'life: &life {');
    const other = '{ cause: fouling, per: image, life: *life }';
    const message = '`*life` refers to a value that would be replaced; write that value out';
    expect(refused(scenario(`\n      - ${shared}\n      - ${other}`))).toBe(message);
  });
});

describe('comments beside a value that is replaced', () => {
  it('are named with their line, and no others are', () => {
    const text = scenario(`\n      # how tips go\n      - ${BREAKAGE} # a guess`);
    const { text: written, doubtful } = filled(text);
    const lines = written.split('\n');
    expect(doubtful.map(({ comment }) => comment).sort()).toEqual(['a guess', 'how tips go']);
    for (const { line, comment } of nonEmpty(doubtful)) expect(lines[line - 1]).toContain(`# ${comment}`);
    expect(filled(written).doubtful).toEqual([]);
  });
});

describe('a covariance of values that nearly follow from each other', () => {
  it.each([1e-6, 1e-9, 1e-12, 0])('is still one when it is written: correlation 1 - %d', (rest) => {
    const [one, two] = [0.123456789123, 0.0345678912345];
    const between = (1 - rest) * Math.sqrt(one * two);
    const [cause] = summary.kinds[0].causes;
    if (cause.hazard === null) throw new Error('no hazard was fitted');
    const hazard = {
      ...cause.hazard,
      distribution: 'weibull' as const,
      parameters: [
        { name: 'shape', value: 1.5 },
        { name: 'scale', value: 20 },
      ],
      uncertainty: {
        of: ['shape', 'scale'],
        covariance: roundedAll([
          [one, between],
          [between, two],
        ]),
      },
    };
    const kinds = [{ ...summary.kinds[0], causes: [{ ...cause, hazard }] }];
    const written = writeInto(scenario(''), { ...summary, kinds });
    if (!written.ok) throw new Error(written.messages.join('; '));
    expect(loadScenario(written.text)).toMatchObject({ ok: true });
    expect(hazardData(hazard).life).toEqual({ distribution: 'weibull', shape: 1.5, scale: '20 images' });
  });
});
