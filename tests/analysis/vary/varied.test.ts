import { describe, expect, it } from 'vitest';
import {
  axisOf,
  numberAt,
  numberOf,
  placeAt,
  placeText,
  settingLabel,
  shareOf,
} from '../../../src/analysis/vary/axis.js';
import { followersOf } from '../../../src/analysis/vary/followers.js';
import { applySettings, readVaried, type Varied } from '../../../src/analysis/vary/varied.js';
import { altered, load, SAMPLE } from '../../scenario/sample.js';

const sample = load(SAMPLE);
const owner = load(
  altered([
    '  - name: hopping\n    workflow: hop',
    '  - name: hopping\n    workflow: hop\n    pace: { scan: 1.5, hands: 1.2 }',
  ]),
);

function varied(text: string, strategy: string | null = null, loaded = sample): Varied {
  const reading = readVaried(loaded, text, strategy);
  if (!reading.ok) throw new Error(reading.message);
  return reading.value;
}

function refusal(text: string): string {
  const reading = readVaried(sample, text);
  return reading.ok ? '' : reading.message;
}

describe('a value that is varied', () => {
  it.each([
    ['plan.regions=2..5', 'whole', [2, 3, 4, 5]],
    ['rules.after=5..15 images by 5', 'whole', ['5 images', '10 images', '15 images']],
    ['pace.scan=1..2 in 3', 'real', [1, 1.5, 2]],
    ['plan.order=region-first, tip-first', 'choice', ['region-first', 'tip-first']],
    ['rules.after=10 images, none', 'choice', ['10 images', null]],
    ['noticing.review.sensitivity=0.5, 0.9', 'real', [0.5, 0.9]],
    ['pace.scan=1, 2', 'real', [1, 2]],
    ['plan.regions=2, 5', 'whole', [2, 5]],
  ] as const)('%s is %s', (text, kind, settings) => {
    expect(varied(text)).toMatchObject({ kind, settings });
  });

  it('is described in words, and by its path where there is nothing to say', () => {
    expect(varied('plan.regions=2..5').description).toMatch(/^Regions of interest/u);
  });

  it('is refused with the nearest path, the setting that the schema refuses, or the plan that is impossible', () => {
    expect(refusal('plan.region=2..5')).toMatch(/plan\.regions/);
    expect(refusal('noticing.review.sensitivity=0.5..1.5 in 3')).toMatch(/^noticing\.review\.sensitivity: at `1\.5`: /);
    expect(refusal('plan.regions')).toMatch(/PATH=RANGE is wanted/);
    expect(refusal('=5')).toMatch(/PATH=RANGE is wanted/);
  });

  it('takes the spread of a step along with its usual time, in proportion, where that is not set as well', () => {
    const at = 'workflows.swap.steps.exchange';
    const timesOf = (settings: Parameters<typeof applySettings>[1], strategy: string | null = null) => {
      const applied = applySettings(sample, settings, strategy);
      if (!applied.ok) throw new Error(applied.message);
      return applied.scenario.strategies[0].settings.workflows.swap.steps.exchange;
    };
    expect(timesOf([[`${at}.usual`, '6 min']])).toMatchObject({ usual: 360, p90: 600 });
    expect(timesOf([[`${at}.usual`, '6 min']], 'by hand')).toMatchObject({ usual: 360, p90: 600 });
    for (const usual of [0, 1]) {
      const both = [[`${at}.usual`, '6 min'] as const, [`${at}.p90`, '7 min'] as const];
      expect(timesOf(usual === 0 ? both : both.toReversed())).toMatchObject({ usual: 360, p90: 420 });
    }
  });

  it('takes the spread that a strategy sets itself along with its own usual time', () => {
    const at = 'workflows.swap.steps.exchange';
    const own = load(
      altered([
        '  - name: by hand\n    workflow: swap',
        `  - name: by hand\n    workflow: swap\n    set: { ${at}: { usual: 10 min, p90: 30 min } }`,
      ]),
    );
    const applied = applySettings(own, [[`${at}.usual`, '10 min']], 'by hand');
    expect(applied).toMatchObject({
      ok: true,
      scenario: {
        strategies: [{ settings: { workflows: { swap: { steps: { exchange: { usual: 600, p90: 1800 } } } } } }, {}],
      },
    });
  });

  it('leaves alone what a strategy sets itself, unless that strategy is named', () => {
    const range = varied('pace.scan=1..2 in 2', null, owner);
    expect(followersOf(owner, range)).toEqual(['by hand']);
    expect(followersOf(owner, range, 'hopping')).toEqual(['hopping']);
    const applied = applySettings(owner, [['pace.scan', 2]], 'hopping');
    expect(applied.ok ? applied.scenario.strategies.map(({ settings }) => settings.pace.scan) : []).toEqual([1, 2]);
  });

  it('changes nobody where nobody has anything of it', () => {
    expect(followersOf(owner, varied('workflows.swap.steps.exchange.usual=1..2 min in 2', null, owner))).toEqual([
      'by hand',
    ]);
    expect(followersOf(sample, { ...varied('pace.scan=1..2 in 2'), settings: [1, 1] })).toEqual([]);
  });
});

describe('an axis', () => {
  const axis = axisOf(varied('plan.regions=2..10'));
  const ratio = axisOf(varied('pace.scan=0.5..2 in 3 log'));

  it('is none for a choice', () => {
    expect(axisOf(varied('plan.order=region-first, tip-first'))).toBeNull();
  });

  it('puts whole numbers in the nearest place, and says exactly where that is', () => {
    if (axis === null) throw new Error('no axis');
    expect(placeAt(axis, 0.3)).toEqual({ at: 0.25, number: 4, setting: 4 });
    expect(numberAt(axis, 0.3)).toBeCloseTo(4.4, 12);
  });

  it('comes back from a number to its share, also in equal ratios', () => {
    if (ratio === null) throw new Error('no axis');
    expect(numberAt(ratio, 0.5)).toBeCloseTo(1, 12);
    for (const share of [0, 0.2, 0.7, 1]) expect(shareOf(ratio, numberAt(ratio, share))).toBeCloseTo(share, 12);
  });

  it('reads numbers out of settings, and shortens what computing has made long', () => {
    expect([5, '7.5 min', null, true, 'region-first'].map(numberOf)).toEqual([5, 7.5, null, null, null]);
    expect(['166.666666666667 EUR', 0.1, null, '0.001 mm'].map(settingLabel)).toEqual([
      '166.7 EUR',
      '0.1',
      'none',
      '0.001 mm',
    ]);
  });

  it('says a place with the digits that its interval leaves', () => {
    expect(placeText({ unit: 'nm' }, { value: 12.4412, low: 12.16, high: 12.84 })).toBe('12.44 nm (12.16 to 12.84)');
    expect(placeText({ unit: '' }, { value: 33.751, low: 29.9, high: 38.12 })).toBe('33.8 (29.9 to 38.1)');
    expect(placeText({ unit: '' }, { value: 5, low: 5, high: 5 })).toBe('5.00');
  });
});
