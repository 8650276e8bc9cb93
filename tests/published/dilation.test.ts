import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { imageRow, tipOnGrid } from '../../src/lesson/surface/dilation.js';
import type { Relief } from '../../src/lesson/surface/relief.js';
import { roundedCone, type TipShape } from '../../src/lesson/surface/tip-shape.js';
import { departure, publishedCase } from '../support/check-values.js';

/** A profile: one row of heights at places from `from` to `to`, so fine that a width is right to two pitches. */
function profile(from: number, to: number, pitch: number, height: (x: number) => number): Relief {
  const columns = Math.round((to - from) / pitch) + 1;
  const heights = Float64Array.from({ length: columns }, (_, place) => height(from + place * pitch));
  return { columns, rows: 1, pitch, heights };
}

function imaged(surface: Relief, tip: TipShape): Float64Array {
  return imageRow(surface, tipOnGrid(tip, surface), 0);
}

/** Width (nm) of the part of an image that is higher than a level. */
function widthAbove(image: Float64Array, level: number, pitch: number): number {
  return image.filter((height) => height > level).length * pitch;
}

const PITCH = 0.02;
const number = z.number();
const numbers = z.array(number);

describe('the image that a tip gives', () => {
  it('is the grey-scale dilation of the surface, in the example worked by hand (Villarrubia 1997)', () => {
    const { inputs, expected } = publishedCase(
      'grey-dilation',
      z.object({ S: numbers, P: z.tuple([z.literal('-u^2'), z.literal('-u^2/4')]) }),
      z.object({ I: z.array(numbers) }),
    );
    const surface = { columns: inputs.S.length, rows: 1, pitch: 1, heights: Float64Array.from(inputs.S) };
    const tips = [1, 4].map(
      (by): TipShape =>
        (u) =>
          Math.abs(u) > 2 ? Infinity : (u * u) / by,
    );
    expect(tips.map((tip) => Array.from(imaged(surface, tip)))).toEqual(expected.I);
  });

  it('shows a ball on a flat as wide as the spheres allow, and as high as it is (geometry of dilation)', () => {
    const { inputs, expected } = publishedCase(
      'sphere-on-flat',
      z.object({ R_nm: number, r_nm: number }),
      z.object({ base_nm: number, fwhm_nm: number, height_nm: number, fwhm_nm_at_R20: number }),
    );
    const ball = inputs.r_nm;
    const surface = profile(-25, 25, PITCH, (x) => (Math.abs(x) < ball ? ball + Math.sqrt(ball * ball - x * x) : 0));
    const image = imaged(surface, roundedCone(inputs.R_nm, 20));
    expect(departure(Math.max(...image), expected.height_nm)).toBeLessThan(1e-9);
    expect(Math.abs(widthAbove(image, 0, PITCH) - expected.base_nm)).toBeLessThan(2 * PITCH);
    expect(Math.abs(widthAbove(image, ball, PITCH) - expected.fwhm_nm)).toBeLessThan(2 * PITCH);
    const blunter = imaged(surface, roundedCone(20, 20));
    expect(Math.abs(widthAbove(blunter, ball, PITCH) - expected.fwhm_nm_at_R20)).toBeLessThan(2 * PITCH);
  });

  it('broadens a step edge by the flank of the tip (geometry of dilation)', () => {
    const { inputs, expected } = publishedCase(
      'step-edge',
      z.object({ R_nm: number, halfAngle_deg: number, h_nm: numbers }),
      z.object({ b_nm: numbers }),
    );
    inputs.h_nm.forEach((height, i) => {
      const surface = profile(0, 60, PITCH, (x) => (x > 50 ? height : 0));
      const image = imaged(surface, roundedCone(inputs.R_nm, inputs.halfAngle_deg));
      const onTop = surface.heights.filter((each) => each > 0).length;
      const broadened = image.filter((each) => each > 1e-9).length - onTop;
      expect(Math.abs(broadened * PITCH - expected.b_nm[i])).toBeLessThan(2 * PITCH);
    });
  });

  it('reaches into a trench as deep as its flanks let it (geometry of dilation)', () => {
    const { inputs, expected } = publishedCase(
      'trench-reach',
      z.object({ R_nm: number, halfAngle_deg: number, W_nm: numbers }),
      z.object({ z_nm: numbers }),
    );
    const depth = 60;
    inputs.W_nm.forEach((width, i) => {
      // The walls stand on grid points: the tip in the middle touches both where they begin.
      const surface = profile(-50, 50, 0.5, (x) => (Math.abs(x) < width / 2 ? -depth : 0));
      const image = imaged(surface, roundedCone(inputs.R_nm, inputs.halfAngle_deg));
      expect(departure(-Math.min(...image), expected.z_nm[i])).toBeLessThan(1e-9);
    });
  });

  it('leaves a dip of the wanted depth between two sharp features at the published separation (Bustamante & Keller 1995)', () => {
    const { inputs, expected } = publishedCase(
      'two-features',
      z.object({ R_nm: number, dz_nm: number, dh_nm: numbers }),
      z.object({ d_nm: numbers, R_nm_at_d10: number }),
    );
    // Their formula is that of a parabolic apex.
    const parabola =
      (radius: number): TipShape =>
      (x) =>
        (x * x) / (2 * radius);
    const dipAt = (separation: number, radius: number, higher: number) => {
      const surface = profile(-separation, 2 * separation, separation / 1000, (x) =>
        Math.abs(x) < separation / 4000 ? 20 : Math.abs(x - separation) < separation / 4000 ? 20 + higher : 0,
      );
      const between = imaged(surface, parabola(radius)).slice(1000, 2001);
      return 20 - Math.min(...between);
    };
    inputs.dh_nm.forEach((higher, i) => {
      const step = expected.d_nm[i] / 1000;
      // The steepest flank turns one grid step into this much height.
      const reading = (step * expected.d_nm[i]) / inputs.R_nm;
      expect(Math.abs(dipAt(expected.d_nm[i], inputs.R_nm, higher) - inputs.dz_nm)).toBeLessThan(reading);
    });
    expect(departure(dipAt(10, expected.R_nm_at_d10, 0), inputs.dz_nm)).toBeLessThan(1e-9);
  });
});
