import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Grid, type Place, searchGrid } from '../../../src/studies/tune/search.js';
import { ended } from '../../support/ended.js';
import { nonEmpty } from '../../support/non-empty.js';

const least = (one: number, other: number) => one < other;

function search(grid: Grid, look: (place: Place) => number | null, most = 200, start: Place | null = null) {
  return ended(searchGrid({ grid, start, most, look, isBetter: least }));
}

describe('the search of a large grid', () => {
  const grid = { sizes: [40, 30, 3], isOrdered: [true, true, false] };

  it('finds the bottom of a bowl, looking at few of the 3600 places', () => {
    const bowl = ([x, y, z]: Place) => (x - 31) ** 2 + (y - 4) ** 2 + (z === 1 ? 0 : 50);
    const found = search(grid, bowl);
    expect(found[0].place).toEqual([31, 4, 1]);
    expect(found.length).toBeLessThanOrEqual(200);
  });

  it('finds the deeper of two valleys though the other is wider', () => {
    const valleys = ([x, y]: Place) =>
      Math.min(5 + (x - 8) ** 2 / 20 + (y - 8) ** 2 / 20, (x - 33) ** 2 + (y - 24) ** 2);
    expect(search(grid, valleys)[0].place.slice(0, 2)).toEqual([33, 24]);
  });

  it('never looks at a place twice, at one outside of the grid, or at more than it may', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 25 }), { minLength: 1, maxLength: 4 }),
        fc.integer({ min: 1, max: 80 }),
        fc.integer(),
        (sizes, most, salt) => {
          const seen = new Set<string>();
          const found = search(
            { sizes, isOrdered: sizes.map((_, i) => i % 2 === 0) },
            (place) => {
              expect(
                nonEmpty(place).every((index, i) => Number.isInteger(index) && index >= 0 && index < sizes[i]),
              ).toBe(true);
              expect(seen.has(place.join())).toBe(false);
              seen.add(place.join());
              const mixed = place.reduce((sum, index) => Math.imul(sum ^ index, 2654435761), salt);
              return mixed % 5 === 0 ? null : mixed % 100;
            },
            most,
          );
          expect(seen.size).toBeLessThanOrEqual(most);
          const scores = found.map(({ score }) => score);
          expect(scores).toEqual(scores.toSorted((a, b) => a - b));
        },
      ),
      { seed: 20, numRuns: 200 },
    );
  });

  it('looks first where it is told to, and answers where there is nothing at all', () => {
    const places: Place[] = [];
    expect(search(grid, (place) => (places.push(place), null), 10, [1, 2, 0])).toEqual([]);
    expect(places[0]).toEqual([1, 2, 0]);
  });
});
