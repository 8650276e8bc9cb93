import { describe, expect, it } from 'vitest';
import { loadScenario } from '../../src/scenario/load.js';
import { filled, altered, faultsOf, load, SAMPLE, shown } from './sample.js';
import { nonEmpty } from '../support/non-empty.js';

/** What is put for what in the sample, and the faults that it must give, all of them. */
const mistakes: readonly (readonly [string, string, string, readonly string[]])[] = [
  [
    'a radius that is no map',
    '  sharp:\n',
    '  sharp:\n    radius: 9 nm\n',
    ['18:13 tips.sharp.radius: read `9 nm`; a map (indented `key: value` lines) such as `{ nominal: 9 nm }` is wanted'],
  ],
  [
    'sites without their tip kind',
    'sites: {sharp: 12, coated: 12}',
    'sites: 50',
    [
      '30:19 workflows.hop.chip.sites: read `50`; a map (indented `key: value` lines) such as `{ sharp: 50 }` is wanted',
    ],
  ],
  [
    'dead sites without their tip kind',
    'price: 900 EUR',
    'dead: 0.2',
    [
      '30:50 workflows.hop.chip.dead: read `0.2`; a map (indented `key: value` lines) such as `{ sharp: 0.2 }` is wanted',
    ],
  ],
  [
    'hours that are no map',
    'strategies:',
    'bookings: Mo-Fr 09:00-17:00\nstrategies:',
    [
      '31:11 bookings: read `Mo-Fr 09:00-17:00`; a map (indented `key: value` lines) such as `{ hours: Mo-Fr 09:00-17:00 }` is wanted',
    ],
  ],
  [
    'a share in percent',
    'signal: electrical',
    'accept: 75 %',
    ['15:15 plan.passes.current.accept: read `75 %`; a number between 0 and 1, such as `0.75`, is wanted'],
  ],
  [
    'a share in words',
    'signal: electrical',
    'accept: most',
    ['15:15 plan.passes.current.accept: read `most`; a number between 0 and 1, such as `0.8`, is wanted'],
  ],
  [
    'a probability in percent',
    'per: distance\n        life: {distribution: exponential, mean: 800 mm}',
    'per: image\n        life: {distribution: probability, perUnit: 1 %}',
    ['21:52 tips.sharp.hazards.breakage.life.perUnit: read `1 %`; a number between 0 and 1, such as `0.01`, is wanted'],
  ],
  [
    'a misspelt key',
    'lines: 128',
    'lnes: 128',
    ['9:7 plan.passes.topography.lnes: unknown key `lnes`; did you mean `lines`?'],
  ],
  [
    'a misspelt key that must be there',
    'regions: 4',
    'region: 4',
    ['4:3 plan.region: unknown key `region`; did you mean `regions`?'],
  ],
  ['a misspelt top key', 'title:', 'titel:', ['1:1 titel: unknown key `titel`; did you mean `title`?']],
  [
    'a key like nothing known',
    'price: 60 EUR',
    'colour: red',
    ['25:5 tips.coated.colour: unknown key `colour`; expected one of `radius`, `blunting`, `hazards`, `price`'],
  ],
  ['a missing key', '  regions: 4\n', '', ['2:1 plan.regions: `regions` is missing; a number is wanted']],
  [
    'a missing key of a list item',
    '      size: 2 um\n',
    '',
    ['12:7 plan.passes.current.size: `size` is missing; a length such as `25 um` is wanted'],
  ],
  [
    'a missing unit',
    'size: 5 um',
    'size: 5',
    ['8:13 plan.passes.topography.size: read `5`, which has no unit; a length such as `25 um` is wanted'],
  ],
  [
    'a missing unit in quotes',
    'size: 5 um',
    'size: "5"',
    ['8:13 plan.passes.topography.size: read `5`, which has no unit; a length such as `25 um` is wanted'],
  ],
  [
    'a wrong unit',
    'size: 5 um',
    'size: 5 min',
    [
      '8:13 plan.passes.topography.size: read `5 min`, whose unit `min` does not measure a length; a length such as `25 um` is wanted',
    ],
  ],
  [
    'nothing after a colon',
    'size: 5 um',
    'size:',
    ['8:12 plan.passes.topography.size: nothing stands here; a length such as `25 um` is wanted'],
  ],
  [
    'a quantity too large',
    'size: 5 um',
    'size: 5 m',
    ['8:13 plan.passes.topography.size: read `5 m`; at most 10 mm is wanted'],
  ],
  [
    'a number too small',
    'lines: 128',
    'lines: 0',
    ['9:14 plan.passes.topography.lines: read `0`; at least 1 is wanted'],
  ],
  [
    'a number with a fraction',
    'lines: 128',
    'lines: 1.5',
    ['9:14 plan.passes.topography.lines: read `1.5`; a whole number is wanted'],
  ],
  [
    'no finite number',
    'lines: 128',
    'lines: .inf',
    ['9:14 plan.passes.topography.lines: read `Infinity`; a number is wanted'],
  ],
  ['a word for a number', 'regions: 4', 'regions: four', ['4:12 plan.regions: read `four`; a number is wanted']],
  [
    'a list for a map',
    'workflows:\n',
    'noticing: [1]\nworkflows:\n',
    ['26:11 noticing: read a list; a map (indented `key: value` lines) is wanted'],
  ],
  [
    'an order unheard of',
    'order: region-first',
    'order: region_first',
    ['3:10 plan.order: read `region_first`; did you mean `region-first`?'],
  ],
  [
    'a cause unheard of',
    'cause: breakage',
    'cause: brekage',
    ['19:16 tips.sharp.hazards.brekage.cause: read `brekage`; did you mean `breakage`?'],
  ],
  [
    'a distribution unheard of',
    'distribution: exponential',
    'distribution: normal',
    [
      '21:30 tips.sharp.hazards.breakage.life.distribution: read `normal`; expected one of `exponential`, `weibull`, `lognormal`, `gamma`, `bathtub`, `log-logistic`, `probability`',
    ],
  ],
  [
    'the former name of a distribution',
    'distribution: exponential',
    'law: exponential',
    ['21:16 tips.sharp.hazards.breakage.life.law: `law` is now called `distribution`'],
  ],
  [
    'the former name of a lognormal geometric standard deviation',
    'distribution: exponential, mean: 800 mm',
    'distribution: lognormal, median: 800 mm, spread: 2',
    ['21:57 tips.sharp.hazards.breakage.life.spread: `spread` is now called `geometricSd`'],
  ],
  [
    'the former names of a wear model and of how wear varies from tip to tip',
    '    hazards:\n',
    '    blunting: { law: archard, wear: { coefficient: 83 nm3/(nN mm), spread: 1.5 } }\n    hazards:\n',
    [
      '18:17 tips.sharp.blunting.law: `law` is now called `model`',
      '18:68 tips.sharp.blunting.wear.spread: `spread` is now called `geometricSd`',
    ],
  ],
  [
    'a life without its distribution',
    'distribution: exponential, ',
    '',
    [
      '21:9 tips.sharp.hazards.breakage.life.distribution: `distribution` is missing; expected one of `exponential`, `weibull`, `lognormal`, `gamma`, `bathtub`, `log-logistic`, `probability`',
    ],
  ],
  [
    'a life in the wrong unit',
    'mean: 800 mm',
    'mean: 800',
    [
      '21:49 tips.sharp.hazards.breakage.life.mean: read `800`, which has no unit; as this is counted per distance, `80 mm` or the like is wanted',
    ],
  ],
  [
    'a step without unit',
    'prepare: 45 min',
    'prepare: 45',
    ['29:16 workflows.hop.steps.prepare: read `45`, which has no unit; a time such as `10 min` is wanted'],
  ],
  [
    'a step of which one half is missing',
    'prepare: 45 min',
    'prepare: {usual: 45 min}',
    ['29:7 workflows.hop.steps.prepare.p90: `p90` is missing; a time such as `10 min` is wanted'],
  ],
  [
    'a step of mixed forms',
    'prepare: 45 min',
    'prepare: {usual: 45 min, max: 2 h}',
    [
      '29:7 workflows.hop.steps.prepare.p90: `p90` is missing; a time such as `10 min` is wanted',
      '29:32 workflows.hop.steps.prepare.max: unknown key `max`; expected one of `usual`, `p90`, `manual`, `success`',
    ],
  ],
  [
    'a misspelt key in a step',
    'prepare: 45 min',
    'prepare: {usual: 45 min, p09: 2 h}',
    ['29:32 workflows.hop.steps.prepare.p09: unknown key `p09`; did you mean `p90`?'],
  ],
  [
    'a step that ends before it is usual',
    'prepare: 45 min',
    'prepare: {usual: 45 min, p90: 30 min}',
    [
      '29:37 workflows.hop.steps.prepare.p90: p90 is less than usual; a time that is exceeded only once in ten is wanted',
    ],
  ],
  [
    'a step whose mode lies outside',
    'prepare: 45 min',
    'prepare: {min: 1 h, mode: 45 min, max: 2 h}',
    ['29:33 workflows.hop.steps.prepare.mode: mode does not lie between min and max; min ≤ mode ≤ max is wanted'],
  ],
  [
    'a chance for a step that cannot fail',
    'prepare: 45 min',
    'offset: {success: 0.5}',
    ['29:16 workflows.hop.steps.offset.success: unknown key `success`; expected one of `usual`, `p90`, `manual`'],
  ],
  [
    'two coefficients of wear at once',
    '    hazards:\n      - cause: breakage',
    '    blunting: {wear: {coefficient: 83 nm3/(nN mm), hardness: 12 GPa}}\n    hazards:\n      - cause: breakage',
    [
      '18:52 tips.sharp.blunting.wear.hardness: unknown key `hardness`; expected one of `coefficient`, `geometricSd`, `uncertainty`',
    ],
  ],
  [
    'wear in the wrong unit',
    '    hazards:\n      - cause: breakage',
    '    blunting: {wear: {coefficient: 83 nm3}}\n    hazards:\n      - cause: breakage',
    [
      '18:36 tips.sharp.blunting.wear.coefficient: read `83 nm3`, whose unit `nm3` does not measure a wear coefficient; a wear coefficient such as `83 nm3/(nN mm)` is wanted',
    ],
  ],
  [
    'a stock that is a word',
    'strategies:',
    'stock: {chips: many}\nstrategies:',
    ['31:16 stock.chips: read `many`; a number is wanted'],
  ],
  [
    'a misspelt key in a stock',
    'strategies:',
    'stock: {chips: {atHand: 3, restok: 2 d}}\nstrategies:',
    ['31:28 stock.chips.restok: unknown key `restok`; did you mean `restock`?'],
  ],
  [
    'money without currency',
    'price: 60 EUR',
    'price: 60',
    ['25:12 tips.coated.price: read `60`, which has no currency; an amount of money such as `30 EUR` is wanted'],
  ],
  [
    'hours of no known form',
    'strategies:',
    'bookings: {hours: 9 to 5}\nstrategies:',
    ['31:19 bookings.hours: read `9 to 5`; weekly hours such as `Mo-Fr 09:00-17:00`, or `always`, are wanted'],
  ],
  [
    'a name with a dot',
    'name: hopping',
    'name: hop.ping',
    [
      '34:11 strategies.1.name: read `hop.ping`; a name of at most 60 letters, digits, spaces and -_+() that begins with a letter or digit is wanted',
    ],
  ],
  [
    'a tip kind with a dot',
    '  coated:\n',
    '  coated.new:\n',
    [
      '22:3 tips.coated.new: read `coated.new`; a name of at most 60 letters, digits, spaces and -_+() that begins with a letter or digit is wanted',
    ],
  ],
  [
    'no strategy',
    '  - name: by hand\n    workflow: swap\n  - name: hopping\n    workflow: hop\n',
    '  []\n',
    ['32:3 strategies: no strategy is given; at least one with a name and a workflow is wanted'],
  ],
  [
    'two chances that add up to more than 1',
    'strategies:',
    'rules: {recondition: {newApex: 0.7, breaks: 0.4}}\nstrategies:',
    ['31:32 rules.recondition.newApex: newApex and breaks together must not exceed 1'],
  ],
  [
    'a path in sources that leads nowhere',
    'strategies:',
    'sources: {tips.sharp.radius.nominel: a book}\nstrategies:',
    [
      '31:11 sources.tips.sharp.radius.nominel: unknown path `tips.sharp.radius.nominel`: no `nominel` there; did you mean `tips.sharp.radius.nominal`?',
    ],
  ],
  [
    'a range of the wrong unit',
    'strategies:',
    'ranges: {tips.sharp.radius.nominal: [5 s, 12 nm]}\nstrategies:',
    [
      '31:38 ranges.tips.sharp.radius.nominal.0: read `5 s`, whose unit `s` does not measure a length; a length such as `25 um` is wanted',
    ],
  ],
  [
    'a range that leaves the value out',
    'strategies:',
    'ranges: {tips.sharp.radius.nominal: [9 nm, 12 nm]}\nstrategies:',
    [
      '31:37 ranges.tips.sharp.radius.nominal: read `9 nm` to `12 nm`; a range that holds the value itself, `8 nm`, is wanted',
    ],
  ],
  [
    'a range of something that is no number',
    'strategies:',
    'ranges: {bookings.hours: [1, 2]}\nstrategies:',
    ['31:10 ranges.bookings.hours: `bookings.hours` is no single number, so it can have no range'],
  ],
];

describe('a scenario with one mistake', () => {
  it.each(mistakes)('%s is told once, where it stands', (_, from, to, faults) => {
    expect(shown(faultsOf(altered([from, to])))).toEqual(faults);
  });

  it('is refused as a whole', () => {
    for (const [, from, to] of nonEmpty(mistakes)) expect(loadScenario(altered([from, to])).ok).toBe(false);
  });
});

describe('a scenario with many mistakes', () => {
  it('is told all of them at once, in the order of the file', () => {
    const faults = faultsOf(
      altered(
        ['regions: 4', 'regions: four'],
        ['size: 5 um', 'size: 5'],
        ['lines: 128', 'lnes: 128'],
        ['workflow: swap', 'workflow: swop'],
      ),
    );
    expect(faults.map(({ line, column }) => [line, column])).toEqual([
      [4, 12],
      [8, 13],
      [9, 7],
      [33, 15],
    ]);
  });

  it('is told the first hundred, with the number of the rest', () => {
    const faults = faultsOf(`${SAMPLE}${Array.from({ length: 300 }, (_, i) => `wrong${i}: 1\n`).join('')}`);
    expect(faults).toHaveLength(100);
    expect(faults.at(-1)?.message).toBe('… and 201 more from here on');
  });
});

describe('a file that is no scenario', () => {
  it.each([
    ['', '1:1 : the file is empty; a scenario with title, plan, tips and strategies is wanted'],
    ['# only a comment\n', '1:1 : the file is empty'],
    ['just words', '1:1 : read `just words`; a scenario with title, plan, tips and strategies is wanted'],
    ['- a\n- list', '1:1 : read a list; a scenario'],
    ['a: {', '1:5 : this is no YAML'],
    ['a: 1\nb: 2\na: 3', '3:1 : duplicate of line 1: a map has each key once'],
    ['title: x: y: z', '1:8 : a map begins inside this line; put a text that holds a colon in quotes'],
    ['a:\n\tb: 1', '2:1 : this line is indented with a tab'],
    ['a: b\u0000c', '1:5 : read `\\u{0}`, which no text file has'],
    ['\u0089PNG\r\n\u001a', '1:1 : read `\\u{89}`, which no text file has'],
    ['a: 1\n---\nb: 2', '2:1 : a second document begins here'],
    ['a: !!js/function x', '1:4 : this tag (`!…`) is not known'],
    ['a: *b', '1:4 : read the alias `*b`, which names nothing above it'],
    ['a: &a [*a]', 'more than 50 aliases'],
    ['__proto__: {polluted: 1}', '1:1 : a scenario may not have the key `__proto__`'],
    ['tips: {constructor: {}}', '1:8 : a scenario may not have the key `constructor`'],
    ['? [a, b]\n: 1', '1:3 : this key is no plain text'],
  ])('%j is refused in one sentence', (text, fault) => {
    const faults = shown(faultsOf(text));
    expect(faults).toHaveLength(1);
    expect(faults[0]).toContain(fault);
  });

  it('of 50 MB is refused in less than a second, with the size read and the limit', () => {
    const text = 'x: 1\n'.repeat(10_000_000);
    const start = performance.now();
    expect(faultsOf(text)[0]?.message).toBe('the file has 50.0 million characters; a scenario has at most 1 million');
    expect(performance.now() - start).toBeLessThan(1000);
  });

  it('with an alias bomb is refused before it goes off', () => {
    const levels = Array.from(
      { length: 12 },
      (_, i) => `k${i}: &a${i} [${Array.from({ length: 10 }, () => (i === 0 ? 'x' : `*a${i - 1}`)).join(', ')}]`,
    );
    const start = performance.now();
    expect(faultsOf(levels.join('\n'))[0]?.message).toContain('more than 50 aliases');
    expect(performance.now() - start).toBeLessThan(1000);
  });

  it.each(['[', '{a: ', '- ', '? '])('with %j a hundred thousand deep is refused without a crash', (opening) => {
    const faults = faultsOf(opening.repeat(100_000));
    expect(faults).toHaveLength(1);
    expect(faults[0]?.message).toContain('deep in each other');
  });

  it('never pollutes the prototype of anything', () => {
    loadScenario(`${SAMPLE}sources: {__proto__: x}\n`);
    loadScenario('{"__proto__": {"polluted": true}}');
    expect(Object.hasOwn(Object.prototype, 'polluted')).toBe(false);
  });
});

describe('a file in an unusual dress', () => {
  it('may begin with a byte order mark, end its lines in CR LF, or be JSON', () => {
    const plain = load(SAMPLE).base;
    expect(load(`\uFEFF${SAMPLE}`).base).toEqual(plain);
    expect(load(SAMPLE.replaceAll('\n', '\r\n')).base).toEqual(plain);
    expect(load(JSON.stringify(filled(SAMPLE))).base).toEqual(plain);
  });

  it('may use aliases', () => {
    const text = altered(['size: 5 um', 'size: &size 5 um'], ['size: 2 um', 'size: *size']);
    expect(load(text).base.plan.passes.map(({ size }) => size)).toEqual([5000, 5000]);
  });

  it('tells a mistake behind an alias where the alias stands', () => {
    const faults = faultsOf(altered(['lines: 128', 'lines: &n 128'], ['signal: electrical', 'lineRate: *n']));
    expect(shown(faults)).toEqual([
      '15:17 plan.passes.current.lineRate: read `128`, which has no unit; a frequency such as `1.5 Hz` is wanted',
    ]);
  });
});

describe('a step', () => {
  it.each([
    ['45 min', { fixed: 2700, manual: true, success: 0.8 }],
    ['{fixed: 45 min, manual: false}', { fixed: 2700, manual: false, success: 0.8 }],
    ['{usual: 45 min, p90: 1 h, success: 0.5}', { usual: 2700, p90: 3600, manual: true, success: 0.5 }],
    ['{min: 1 min, mode: 2 min, max: 8 min}', { min: 60, mode: 120, max: 480, manual: true, success: 0.8 }],
    ['{success: 0.9}', { min: 1200, mode: 2700, max: 7200, manual: true, success: 0.9 }],
  ])('may be written %s, and takes the rest from its preset', (written, step) => {
    expect(load(altered(['prepare: 45 min', `prepare: ${written}`])).base.workflows.hop.steps.prepare).toEqual(step);
  });
});
