import { describe, expect, it } from 'vitest';
import { altered, faultsOf, SAMPLE, shown } from './sample.js';

/** `line:column` of each fault, with the beginning of its message. */
function told(text: string): readonly string[] {
  return shown(faultsOf(text)).map((line) => line.slice(0, 90));
}

const NEVER = 'bookings: {hours: "Mo-Fr 18:00-06:00"}\noperators: {hours: "Mo-Fr 09:00-17:00"}\nstrategies:';
const UNREADABLE = ['size: 5 um', 'size: 5'] as const;

describe('a value that cannot be read', () => {
  it.each<readonly [string, readonly (readonly [string, string])[], string]>([
    [
      'an unknown tip kind of the same pass',
      [['tip: sharp', 'tip: sharpe']],
      '7:12 plan.passes.topography.tip: read `sharpe`',
    ],
    [
      'two passes of one name',
      [['name: current', 'name: topography']],
      'read the name `topography`, which an earlier pass has',
    ],
    [
      'two strategies of one name',
      [['name: hopping', 'name: by hand']],
      'read the name `by hand`, which an earlier strategy has',
    ],
    ['two currencies', [['price: 900 EUR', 'price: 900 CHF']], 'read an amount in CHF'],
    ['hours that never meet', [['strategies:', NEVER]], 'operators.hours: the hours in which an operator is present'],
    ['a chip without sites', [['sharp: 12, coated: 12', 'sharp: 12']], 'the chip has no sites of the tip kind'],
    [
      'another pass longer than every booking',
      [['strategies:', 'bookings: {hours: "Mo-Fr 09:00-09:04"}\nstrategies:']],
      'plan.passes.current: an image of the pass `current` takes 4.27 min',
    ],
    [
      'a mass without the lever’s',
      [['    chip:', '    extent: 1 um\n    mass: 4 ng\n    chip:']],
      '`mass` is given without `effectiveMass`',
    ],
    [
      'a range that leaves its value out',
      [['strategies:', 'ranges: {tips.sharp.radius.nominal: [9 nm, 12 nm]}\nstrategies:']],
      'a range that holds the value itself',
    ],
  ])('hides nothing of %s', (_, changes, fault) => {
    const alone = shown(faultsOf(altered(...changes)));
    const both = shown(faultsOf(altered(UNREADABLE, ...changes)));
    expect(both.join('\n')).toMatch(/^8:13 plan.passes.(?:topography|0).size: read `5`, which has no unit/mu);
    expect(both.join('\n')).toContain(fault);
    expect(alone.join('\n')).toContain(fault);
  });

  it.each<readonly [string, readonly (readonly [string, string])[]]>([
    [
      'the image might be too long',
      [UNREADABLE, ['lines: 128', 'lnes: 128'], ['strategies:', 'bookings: {hours: "Mo-Fr 09:00-09:30"}\nstrategies:']],
    ],
    ['more regions might not fit', [UNREADABLE, ['    chip:', '    extent: 3 um\n    chip:']]],
    [
      'its range might leave it out',
      [
        [
          'tips:\n  sharp:\n',
          'ranges: {tips.sharp.radius.nominal: [9 nm, 12 nm]}\ntips:\n  sharp:\n    radius: {nominal: 8 mn}\n',
        ],
      ],
    ],
    ['the kind that a pass names might be the one misnamed', [['  coated:\n', '  coated.new:\n']]],
    ['the coating might wear by what cannot be read', [['scale: 30 h', 'scale: 30']]],
    ['two signs of one mistake', [['regions: 4', 'region: 4']]],
    [
      'a strategy might not hop',
      [
        ['workflow: hop', 'workflow: hob'],
        ['sharp: 12, coated: 12', 'sharp: 12'],
      ],
    ],
    [
      'a strategy might set it right',
      [
        ['sharp: 12, coated: 12', 'sharp: 12'],
        ['    workflow: hop\n', '    workflow: hop\n    set: {workflows.hop.chip.sits: {sharp: 12, coated: 12}}\n'],
      ],
    ],
  ])('says nothing of what depends on it: %s', (_, changes) => {
    for (const fault of faultsOf(altered(...changes))) expect(fault.message).toMatch(/^read |leads nowhere/u);
    expect(faultsOf(altered(...changes)).length).toBeLessThanOrEqual(2);
  });

  it('in one strategy leaves the others to be looked at, and the rest of its own', () => {
    const text = altered(
      ['sharp: 12, coated: 12', 'sharp: 12'],
      ['    workflow: swap\n', '    workflow: swap\n    pace: {hands: fast}\n'],
    );
    expect(told(text)).toEqual([
      expect.stringContaining('workflows.hop.chip.sites: the chip has no sites'),
      expect.stringContaining('pace.hands: read `fast`'),
    ]);
    expect(
      told(`${SAMPLE}    pace: {hands: fast}\n    set:\n      plan.passes.topography.neededResolution: 5 nm\n`),
    ).toEqual([expect.stringContaining('read `fast`'), expect.stringContaining('a new `sharp` tip of median radius')]);
  });

  it('of a whole part leaves the other parts to be looked at', () => {
    expect(told(altered(['  hop:\n', '  swap: 3\n  hop:\n'], ['tip: sharp', 'tip: sharpe']))).toEqual([
      expect.stringContaining('read `sharpe`'),
      expect.stringContaining('no pass uses the tip kind `sharp`'),
      expect.stringContaining('workflows.swap: read `3`'),
    ]);
    for (const part of ['plan', 'tips', 'workflows', 'strategies', 'bookings', 'noticing', 'stock', 'costs'])
      expect(told(`${SAMPLE.replace(new RegExp(`^${part}:\n(?: .*\n)+`, 'mu'), '')}${part}: 7\n`)).toHaveLength(1);
  });
});
