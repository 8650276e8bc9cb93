import { describe, expect, it } from 'vitest';
import { altered, faultsOf, SAMPLE, shown } from './sample.js';
import { nonEmpty } from '../support/non-empty.js';

/** `line:column` of each fault, with the beginning of its message. */
function told(text: string): readonly string[] {
  return shown(faultsOf(text)).map((line) => line.slice(0, 90));
}

const UNREADABLE = ['size: 5 um', 'size: 5'] as const;

describe('a value that cannot be read', () => {
  it.each<readonly [string, readonly [string, string], string]>([
    [
      'another value',
      ['lines: 128', 'lines: few'],
      '9:14 plan.passes.topography.lines: read `few`; a number is wanted',
    ],
    [
      'two strategies of one name',
      ['name: hopping', 'name: by hand'],
      'read the name `by hand`, which an earlier strategy has',
    ],
    ['two currencies', ['price: 900 EUR', 'price: 900 CHF'], 'read an amount in CHF'],
    [
      'a source for nothing',
      ['strategies:', 'sources: {tips.sharp.radius.nominel: a book}\nstrategies:'],
      'did you mean `tips.sharp.radius.nominal`?',
    ],
  ])('hides nothing of %s', (_, change, fault) => {
    const both = shown(faultsOf(altered(UNREADABLE, change))).join('\n');
    expect(both).toMatch(/^8:13 plan.passes.(?:topography|0).size: read `5`, which has no unit/mu);
    expect(both).toContain(fault);
  });

  it('comes before what does not go together', () => {
    const change = ['sharp: 12, coated: 12', 'sharp: 12'] as const;
    expect(told(altered(change))).toEqual([expect.stringContaining('the chip has no sites of the tip kind')]);
    expect(told(altered(UNREADABLE, change))).toEqual([expect.stringContaining('read `5`, which has no unit')]);
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
    for (const fault of nonEmpty(faultsOf(altered(...changes)))) expect(fault.message).toMatch(/^read |^unknown /u);
    expect(faultsOf(altered(...changes)).length).toBeLessThanOrEqual(2);
  });

  it('of a whole part is told once', () => {
    for (const part of ['plan', 'tips', 'workflows', 'strategies', 'bookings', 'noticing', 'stock', 'costs'])
      expect(told(`${SAMPLE.replace(new RegExp(`^${part}:\n(?: .*\n)+`, 'mu'), '')}${part}: 7\n`)).toHaveLength(1);
  });
});
