import { describe, expect, it } from 'vitest';
import { LuckTable, PURPOSES } from '../../src/chance/luck.js';
import { normalQuantile } from '../../src/chance/normal.js';
import { type Column, crossingsOf, refinements, signsOf } from '../../src/statistics/crossing.js';
import { meanInterval, pairedInterval } from '../../src/statistics/interval.js';

const LEVEL = 0.95;

/** Columns at the places given, whose differences are those of a mean line and the luck of each replication. */
function columns(places: readonly number[], line: (at: number) => number, luck: readonly number[]): readonly Column[] {
  return places.map((at) => ({ at, differences: luck.map((deviation) => line(at) + deviation) }));
}

const EVEN = [-1, 1, -2, 2, -0.5, 0.5, -1.5, 1.5];
const places = [0, 0.25, 0.5, 0.75, 1];

describe('a crossing', () => {
  it('lies where the mean line passes through zero, in the interval on which zero lies within that of the mean', () => {
    const [crossing, ...others] = crossingsOf(
      columns(places, (at) => 40 * (at - 0.6), EVEN),
      LEVEL,
    );
    expect(others).toEqual([]);
    expect(crossing.at).toBeCloseTo(0.6, 12);
    expect(crossing).toMatchObject({ rises: true, before: 2, behind: 3 });
    // The luck is the same everywhere, so the half-width of the mean is too, and the interval is that over the slope.
    const { halfWidth } = pairedInterval(
      EVEN,
      EVEN.map(() => 0),
      LEVEL,
    );
    expect(crossing.low).toBeCloseTo(0.6 - halfWidth / 40, 12);
    expect(crossing.high).toBeCloseTo(0.6 + halfWidth / 40, 12);
  });

  it('is looked for in every piece between two columns that show clear and opposite signs', () => {
    // Four columns; neither of those in the middle is clear with three others beside it, though zero lies in the interval of
    // none: the half-width is h alone, and more than 1.2 h with the others. Zero is met in the last piece, by the same rule of
    // three for the crossing and both ends.
    const { halfWidth: h } = meanInterval(EVEN, LEVEL);
    const means = [-40 * h, -1.1 * h, -1.2 * h, 40 * h];
    const tried = means.map((mean, at) => ({ at, differences: EVEN.map((deviation) => mean + deviation) }));
    expect(signsOf(tried, LEVEL)).toEqual([-1, 0, 0, 1]);
    const [crossing, ...others] = crossingsOf(tried, LEVEL);
    expect(others).toEqual([]);
    expect(crossing).toMatchObject({ before: 0, behind: 3, rises: true });
    expect(crossing.low).toBeCloseTo(2 + 0.2 / 41.2, 12);
    expect(crossing.at).toBeCloseTo(2 + 1.2 / 41.2, 12);
    expect(crossing.high).toBeCloseTo(2 + 2.2 / 41.2, 12);
    // Mirrored, the same holds from the other side.
    const [mirrored] = crossingsOf(
      tried.toReversed().map(({ differences }, at) => ({ at, differences })),
      LEVEL,
    );
    expect(mirrored).toMatchObject({ before: 0, behind: 3, rises: false });
    expect(mirrored.low).toBeCloseTo(1 - 2.2 / 41.2, 12);
    expect(mirrored.at).toBeCloseTo(1 - 1.2 / 41.2, 12);
    expect(mirrored.high).toBeCloseTo(1 - 0.2 / 41.2, 12);
  });

  it('falls where the line falls', () => {
    const [crossing] = crossingsOf(
      columns(places, (at) => 40 * (0.6 - at), EVEN),
      LEVEL,
    );
    expect(crossing.rises).toBe(false);
    expect(crossing.at).toBeCloseTo(0.6, 12);
  });

  it('is found each time that the line passes, in the order of places', () => {
    const wave = (at: number) => 60 * (at - 0.2) * (at - 0.55) * (at - 0.9) * 20;
    const many = Array.from({ length: 21 }, (_, place) => place / 20);
    const found = crossingsOf(
      columns(
        many,
        wave,
        EVEN.map((each) => each / 20),
      ),
      LEVEL,
    );
    expect(found.map(({ rises }) => rises)).toEqual([true, false, true]);
    for (const [place, truth] of [0.2, 0.55, 0.9].entries()) {
      expect(found[place].low).toBeLessThan(truth);
      expect(found[place].high).toBeGreaterThan(truth);
      expect(Math.abs(found[place].at - truth)).toBeLessThan(0.01);
    }
  });

  it('is a point where nothing varies', () => {
    const [crossing] = crossingsOf(
      columns([0, 0.3, 1], (at) => at - 0.1, [0, 0, 0]),
      LEVEL,
    );
    expect(crossing.low).toBeCloseTo(0.1, 12);
    expect(crossing.high).toBeCloseTo(0.1, 12);
  });

  it('is none where one side shows no clear difference, where the line stays on one side, or where all is zero', () => {
    expect(
      crossingsOf(
        columns(places, (at) => 40 * at - 0.1, EVEN),
        LEVEL,
      ),
    ).toEqual([]);
    expect(
      crossingsOf(
        columns(places, (at) => 5 + at, EVEN),
        LEVEL,
      ),
    ).toEqual([]);
    const nothing = columns(places, () => 0, [0, 0]);
    expect(crossingsOf(nothing, LEVEL)).toEqual([]);
    expect(signsOf(nothing, LEVEL)).toEqual([0, 0, 0, 0, 0]);
  });

  it('is looked at more closely halfway along the pieces that hold it or an end of its interval', () => {
    const tried = columns(places, (at) => 40 * (at - 0.6), EVEN);
    const [crossing] = crossingsOf(tried, LEVEL);
    expect(refinements(tried, crossing, 0.1)).toEqual([0.625]);
    expect(refinements(tried, crossing, 0.25)).toEqual([]);
  });

  it('uses as many replications as all of its columns have', () => {
    const [first, ...rest] = columns(places, (at) => 40 * (at - 0.6), EVEN);
    const longer = [{ ...first, differences: [...first.differences, ...first.differences] }, ...rest];
    expect(crossingsOf(longer, LEVEL)).toEqual(crossingsOf([first, ...rest], LEVEL));
  });
});

describe('the interval of a crossing', () => {
  it('holds the true one as often as it says', () => {
    // 2000 repetitions of 30 replications of a line with a slope and a level of its own luck each. Held 1900 times on
    // average with standard deviation 9.7; outside of 1850 to 1950 less than once in a million seeds.
    const table = new LuckTable('crossing');
    let held = 0;
    for (let repetition = 1; repetition <= 2000; repetition += 1) {
      const luck = table.replication(repetition);
      const deviates = Array.from({ length: 30 }, (_, i) =>
        [0, 1].map((kind) => normalQuantile(luck.uniform(PURPOSES.life, kind, 0, i, 0))),
      );
      const tried = places.map((at) => ({
        at,
        differences: deviates.map(([level, slope]) => 12 * (at - 0.4) + level + 2 * slope * at),
      }));
      const [crossing] = crossingsOf(tried, LEVEL);
      if (crossing.low <= 0.4 && crossing.high >= 0.4) held += 1;
    }
    expect(held).toBeGreaterThanOrEqual(1850);
    expect(held).toBeLessThanOrEqual(1950);
  });
});
