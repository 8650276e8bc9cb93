import { describe, expect, it } from 'vitest';
import { altered, faultsOf, load, SAMPLE } from './sample.js';

const clean = faultsOf(SAMPLE);

/** `severity line:column message` of what a scenario is told. */
function told(text: string): readonly string[] {
  return faultsOf(text).map(({ severity, line, column, message }) => `${severity} ${line}:${column} ${message}`);
}

describe('a plan that is well formed', () => {
  it('is told nothing where nothing is wrong', () => {
    expect(clean).toEqual([]);
  });

  it.each<readonly [string, readonly (readonly [string, string])[], readonly string[]]>([
    [
      'a tip kind that is not defined',
      [['tip: sharp', 'tip: sharpe']],
      ['error 7:12 unknown tip kind `sharpe`; did you mean `sharp`?', 'warning 17:3 no pass uses the tip kind `sharp`'],
    ],
    [
      'a tip kind that no pass uses',
      [['  coated:\n', '  spare: {}\n  coated:\n']],
      ['warning 22:3 no pass uses the tip kind `spare`'],
    ],
    [
      'a chip without sites of a kind',
      [['sharp: 12, coated: 12', 'sharp: 12']],
      [
        'error 30:19 the chip has no sites of the tip kind `coated`; `workflows.hop.chip.sites.coated` is wanted, or a strategy that does not hop',
      ],
    ],
    [
      'sites of a kind that is not defined',
      [['coated: 12', 'coated: 12, coatd: 3']],
      ['error 30:43 unknown tip kind `coatd`; did you mean `coated`?'],
    ],
    [
      'a scan longer than every booking',
      [['strategies:', 'bookings: {hours: "Mo-Fr 09:00-09:04"}\nstrategies:']],
      [
        ...['24 min', '21.8 min'].map(
          (before) =>
            `warning 6:7 after a closing an image of the pass \`topography\` (2.13 min) comes after warming up, approaching and finding the region again (usually ${before}), together longer than every booking (4 min at most)`,
        ),
        'error 12:7 an image of the pass `current` takes 4.27 min at pace 1, longer than every booking (4 min at most)',
      ],
    ],
    [
      'operators who are never there in a booking',
      [['strategies:', 'bookings: {hours: "Mo-Fr 18:00-06:00"}\noperators: {hours: "Mo-Fr 09:00-17:00"}\nstrategies:']],
      [
        'error 32:20 the hours in which an operator is present and those that are booked never meet, though steps by hand need both (`by hand`, `hopping`)',
      ],
    ],
    [
      'more regions than fit on the specimen',
      [
        ['    chip:', '    extent: 10 um\n    chip:'],
        ['regions: 4', 'regions: 5'],
      ],
      [
        'error 4:12 `workflows.hop.extent` (10 um) is too small for the 5 regions of the sample, 5 um wide and 0 nm apart: 4 fit; a larger extent, fewer `plan.regions`, or several `plan.samples` are wanted',
      ],
    ],
    [
      'a gap that leaves no room',
      [
        ['    chip:', '    extent: 10 um\n    chip:'],
        ['regions: 4', 'regions: 2\n  regionGap: 1 um'],
      ],
      [
        'error 4:12 `workflows.hop.extent` (10 um) is too small for the 2 regions of the sample, 5 um wide and 1 um apart: 1 fit; a larger extent, fewer `plan.regions`, or several `plan.samples` are wanted',
      ],
    ],
    [
      'a mass without the lever’s',
      [['    chip:', '    mass: 4 ng\n    chip:']],
      ['error 30:11 `mass` is given without `effectiveMass`; both are wanted, or neither'],
    ],
    [
      'an earlier name of a pass',
      [['name: current', 'name: topography']],
      ['error 12:13 read the name `topography`, which an earlier pass has; another is wanted'],
    ],
    [
      'an earlier name of a strategy',
      [['name: hopping', 'name: by hand']],
      ['error 34:11 read the name `by hand`, which an earlier strategy has; another is wanted'],
    ],
    [
      'two currencies',
      [['price: 900 EUR', 'price: 900 CHF']],
      ['error 30:51 read an amount in CHF, though tips.coated.price is in EUR; one currency for all is wanted'],
    ],
    [
      'no specimen at hand',
      [['strategies:', 'stock: {specimens: 0}\nstrategies:']],
      ['error 31:20 0 at hand; array-hop needs at least 1, the first of every sample, or a restock delay'],
    ],
    [
      'fewer specimens at hand than samples',
      [
        ['regions: 4', 'regions: 4\n  samples: 3'],
        ['strategies:', 'stock: {specimens: 2}\nstrategies:'],
      ],
      ['error 32:20 2 at hand; array-hop needs at least 3, the first of every sample, or a restock delay'],
    ],
    [
      'no tip at hand',
      [['strategies:', 'stock: {tips: {sharp: 0}}\nstrategies:']],
      ['error 31:23 no tip of the kind `sharp` is at hand, though the plan needs one; at least 1 is wanted'],
    ],
    [
      'sessions without end',
      [['strategies:', 'bookings: {allocation: 2 sessions}\nstrategies:']],
      [
        'error 31:24 sessions are granted, though the bookings never close and so are one session without end; hours such as `40 h` are wanted',
      ],
    ],
    [
      'a coating that lasts for ever',
      [['cause: coating', 'cause: breakage']],
      [
        'warning 15:15 the pass `current` needs the coating of `coated`, which no hazard of the cause `coating` ever takes away',
      ],
    ],
    [
      'new tips that are too blunt',
      [
        ['size: 5 um', 'size: 0.5 um'],
        ['neededResolution: 100 nm', 'neededResolution: 5 nm'],
      ],
      [
        'error 10:25 a new `sharp` tip of median radius misses what `topography` accepts: quality 0.625 at pace 1 is below 0.8: resolution 0.625 (at mid-image such a tip tells 8 nm apart), tracking 1',
      ],
    ],
    [
      'lines that lie too far apart for what must be resolved',
      [['neededResolution: 100 nm', 'neededResolution: 5 nm']],
      [
        'error 10:25 `topography`: 5 um in 128 lines is 39.1 nm a line; a distance takes two, so 5 nm cannot be resolved: take 79 nm or more, or 2000 lines or more (quality 0.064 is below 0.8)',
      ],
    ],
    [
      'pixels that do',
      [
        ['lines: 128', 'lines: 2048\n      pixels: 100'],
        ['neededResolution: 100 nm', 'neededResolution: 50 nm'],
      ],
      [
        'error 11:25 `topography`: 5 um in 100 pixels a line is 50 nm a pixel; a distance takes two, so 50 nm cannot be resolved: take 100 nm or more, or 200 pixels a line or more (quality 0.5 is below 0.8)',
      ],
    ],
    [
      'new tips of which many are too blunt',
      [
        ['size: 5 um', 'size: 0.5 um'],
        ['neededResolution: 100 nm', 'neededResolution: 7 nm'],
      ],
      [
        'warning 10:25 more than one new `sharp` tip in ten misses what `topography` accepts: at the 90th percentile of new tips, 11.2 nm at mid-image, quality 0.74 at pace 1 is below 0.8: resolution 0.74 (at mid-image such a tip tells 9.46 nm apart), tracking 1',
      ],
    ],
  ])('is told %s', (_, changes, faults) => {
    expect(told(altered(...changes))).toEqual(faults);
  });

  it('may start outside any booking', () => {
    expect(
      told(altered(['strategies:', 'bookings: {hours: "Mo-Fr 09:00-17:00", start: "Su 03:00"}\nstrategies:'])),
    ).toEqual([]);
  });

  it('may fill the specimen exactly', () => {
    expect(told(altered(['    chip:', '    extent: 10 um\n    chip:']))).toEqual([]);
    expect(
      told(
        altered(
          ['    chip:', '    extent: 0.3 um\n    chip:'],
          ['size: 5 um', 'size: 0.1 um'],
          ['size: 2 um', 'size: 0.1 um'],
          ['regions: 4', 'regions: 9'],
        ),
      ),
    ).toEqual([]);
  });

  it('needs no sites where nobody hops', () => {
    expect(told(altered(['workflow: hop', 'workflow: swap'], ['sharp: 12, coated: 12', '']))).toEqual([]);
  });
});

describe('a strategy that makes the plan impossible', () => {
  const tracked = altered(['dip: 1 nm', 'dip: 1 nm\n      trackingBandwidth: 200 Hz']);

  it('by its haste is told so at its own pace', () => {
    expect(told(tracked)).toEqual([]);
    const [fault, ...more] = told(`${tracked}    pace: {scan: 3}\n`);
    expect(more).toEqual([]);
    expect(fault).toContain(
      'error 37:18 a new `sharp` tip of median radius misses what `topography` accepts: quality 0.555 at pace 3 is below 0.8',
    );
  });

  it('by the mass that it hangs on the lever is told so', () => {
    const heavy = tracked.replace('    chip:', '    mass: 300 ng\n    effectiveMass: 100 ng\n    chip:');
    expect(told(heavy.replace('200 Hz', '400 Hz'))).toEqual([]);
    expect(told(heavy)).toEqual([expect.stringContaining('tracking 0.707')]);
  });

  it('by what it sets is told so at the line that sets it', () => {
    expect(told(`${SAMPLE}    set:\n      plan.passes.topography.neededResolution: 5 nm\n`)).toEqual([
      expect.stringMatching(/^error 37:48 `topography`: 5 um in 128 lines/u),
    ]);
  });
});

describe('the currency', () => {
  it('is the one that the scenario writes', () => {
    expect(load(SAMPLE).currency).toBe('EUR');
    expect(load(altered(['60 EUR', '60 CHF'], ['900 EUR', '900 CHF'])).currency).toBe('CHF');
  });
});
