import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LuckTable } from '../../../src/chance/luck.js';
import { imageRow, tipOnGrid } from '../../../src/lesson/surface/dilation.js';
import { heightRange, type Relief } from '../../../src/lesson/surface/relief.js';
import { specimenOf } from '../../../src/lesson/surface/specimen.js';
import { shapeOf, type TipLook } from '../../../src/lesson/surface/tip-look.js';
import { roundedCone, type TipShape } from '../../../src/lesson/surface/tip-shape.js';

function imageOf(surface: Relief, shape: TipShape): number[] {
  const tip = tipOnGrid(shape, surface);
  return Array.from({ length: surface.rows }, (_, row) => Array.from(imageRow(surface, tip, row))).flat();
}

/** The definition, place by place, with nothing left out. */
function bruteForce({ columns, pitch, heights }: Relief, shape: TipShape): number[] {
  const places = Array.from(heights, (height, place) => ({
    height,
    x: place % columns,
    y: Math.floor(place / columns),
  }));
  return places.map((at) =>
    Math.max(...places.map(({ height, x, y }) => height - shape((x - at.x) * pitch, (y - at.y) * pitch))),
  );
}

const relief: fc.Arbitrary<Relief> = fc
  .record({ columns: fc.integer({ min: 1, max: 9 }), rows: fc.integer({ min: 1, max: 9 }) })
  .chain(({ columns, rows }) =>
    fc.record({
      columns: fc.constant(columns),
      rows: fc.constant(rows),
      pitch: fc.double({ min: 0.1, max: 5, noNaN: true }),
      heights: fc
        .array(fc.double({ min: -20, max: 20, noNaN: true }), { minLength: columns * rows, maxLength: columns * rows })
        .map((heights) => Float64Array.from(heights)),
    }),
  );
const look: fc.Arbitrary<TipLook> = fc.record({
  state: fc.constantFrom('sound', 'chipped', 'blunt', 'fouled', 'worn-out', 'coating gone', 'broken'),
  radius: fc.double({ min: 1, max: 60, noNaN: true }),
  halfAngle: fc.double({ min: 5, max: 60, noNaN: true }),
  number: fc.nat({ max: 5 }),
});

describe('the image of any surface by any tip', () => {
  it('is what the definition gives, place by place', () => {
    fc.assert(
      fc.property(relief, look, (surface, tip) => {
        expect(imageOf(surface, shapeOf(tip))).toEqual(bruteForce(surface, shapeOf(tip)));
      }),
      { seed: 5, numRuns: 200 },
    );
  });

  it('lies nowhere below the surface, and spans no more than it', () => {
    fc.assert(
      fc.property(relief, look, (surface, tip) => {
        const image = imageOf(surface, shapeOf(tip));
        image.forEach((height, place) => {
          expect(height).toBeGreaterThanOrEqual(surface.heights[place]);
        });
        expect(Math.max(...image) - Math.min(...image)).toBeLessThanOrEqual(heightRange(surface));
      }),
      { seed: 6, numRuns: 200 },
    );
  });

  it('is nowhere lower by a blunter apex', () => {
    fc.assert(
      fc.property(relief, fc.double({ min: 1, max: 40, noNaN: true }), (surface, radius) => {
        const sharp = imageOf(surface, roundedCone(radius, 20));
        imageOf(surface, roundedCone(radius * 1.5, 20)).forEach((height, place) => {
          expect(height).toBeGreaterThanOrEqual(sharp[place] - 1e-9);
        });
      }),
      { seed: 7, numRuns: 200 },
    );
  });
});

describe('an invented specimen', () => {
  const luck = new LuckTable('specimen').replication(0);

  it('is the same for common random numbers and region, and another one elsewhere', () => {
    expect(specimenOf(luck, 3)).toEqual(specimenOf(luck, 3));
    expect(specimenOf(luck, 3).heights).not.toEqual(specimenOf(luck, 4).heights);
  });

  it('has relief that every tip pictures in its own way: a broken one shows next to nothing', () => {
    const surface = specimenOf(luck, 0);
    const picturedBy = (state: TipLook['state']) =>
      imageOf(surface, shapeOf({ state, radius: 8, halfAngle: 20, number: 0 }));
    const mean = (heights: readonly number[]) => heights.reduce((sum, each) => sum + each, 0) / heights.length;
    const [sound, fouled, broken] = [picturedBy('sound'), picturedBy('fouled'), picturedBy('broken')].map(mean);
    expect(heightRange(surface)).toBeGreaterThan(5);
    expect(fouled).toBeGreaterThan(sound + 0.2);
    expect(broken).toBeGreaterThan(fouled + 0.2);
  });
});
