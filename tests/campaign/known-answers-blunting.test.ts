import { describe, expect, it } from 'vitest';
import { runMany } from '../support/run.js';
import { plainModel } from '../support/scene.js';

/*
 * Known answer 6, exact. By hand: silicon on silicon with K = 0.001 and H = 12 GPa wears V = K·F·s/H, that is
 * 1000/12 nm³ per nanonewton and millimetre. A cone of half-angle 20°, capped by a sphere, misses
 * c·R³ of its sharp apex with c = π(1 - sin 20°)²/(3 sin 20°) = 1.3251, so R³ grows by V/c.
 */
const C = (Math.PI * (1 - Math.sin(Math.PI / 9)) ** 2) / (3 * Math.sin(Math.PI / 9));
const R0 = 8;
const radiusAfter = (loadTimesPath: number) => Math.cbrt(R0 ** 3 + (loadTimesPath * (1000 / 12)) / C);
const blunt = {
  radius: { nominal: '8 nm', geometricSd: 1 },
  blunting: { halfAngle: '20 deg', wear: { archardK: 0.001, hardness: '12 GPa', geometricSd: 1 } },
};
const detail = {
  size: '1 um',
  lines: 512,
  load: '10 nN',
  neededResolution: '10 nm',
  dip: '0.5 nm',
  accept: 0.8,
};

describe('6. blunting alone', () => {
  it('follows R(s) = (R0³ + kFs/c)^(1/3), and the quality at mid-image follows d = 2√(2RΔz)', () => {
    const images = 120;
    const model = plainModel({
      regions: images,
      passes: [detail],
      tips: { tip: blunt },
      noticing: { review: { by: 'nobody' } },
    });
    const [outcome] = runMany(model, 'known answer 6', 1);
    const path = 2 * 1e-3 * 512; // millimetres of one image: trace and retrace of 512 lines of 1 µm
    const qualities = outcome.images.map((image) => image.kept?.quality ?? NaN);
    qualities.forEach((quality, j) => {
      const radius = radiusAfter(10 * path * (j + 0.5));
      expect(quality, `image ${j + 1}`).toBeCloseTo(Math.min(1, 10 / (2 * Math.sqrt(2 * radius * 0.5))), 9);
    });
    // q falls below 0.8 where d > 12.5 nm, that is R > 12.5²/4 = 39.0625 nm: R³ must grow by 59604.6 - 512 = 59092.6 nm³,
    // at 643.98 nm³ an image after 91.76 images; the middle of image 92 comes after 91.5, so the first below is image 93.
    expect(qualities.findIndex((quality) => quality < 0.8)).toBe(92);
    expect(outcome).toMatchObject({ good: 92, undetectedBad: images - 92, tips: 1 });
    expect(outcome.images[0].kept?.tip?.radius).toBeCloseTo(radiusAfter(10 * path * images), 9);
  });

  it('adds up over passes of different load and path, and comes back with a new tip', () => {
    const model = plainModel({
      regions: 30,
      passes: [detail, { ...detail, size: '2 um', load: '30 nN', accept: 0 }],
      tips: { tip: blunt },
      noticing: { attempts: 4, review: { by: 'automatic', time: '0 s', sensitivity: 1, falseAlarm: 0 } },
    });
    const [outcome] = runMany(model, 'known answer 6', 1);
    const light = 10 * 1.024;
    const heavy = 30 * 2.048;
    // One region wears light + heavy; the detail of region r (from 0) on the first tip is at R after r whole regions and half a
    // detail. R = 39.0625 nm needs kFs/c of 59092.6 nm³; a region adds 4507.9, so r = 13 is at 58925 and good, r = 14 at 63432 and bad.
    const growth = (loadTimesPath: number) => radiusAfter(loadTimesPath) ** 3 - R0 ** 3;
    expect(growth(13 * (light + heavy) + light / 2)).toBeLessThan(59092.6);
    expect(growth(14 * (light + heavy) + light / 2)).toBeGreaterThan(59092.7);
    expect(outcome.takesOf.filter((_, image) => image % 2 === 0).map((takes) => takes > 1)).toEqual(
      Array.from({ length: 30 }, (_, region) => region === 14 || region === 28),
    );
    // The flagged detail wore the first tip, the retake starts on a new one.
    expect(outcome.tips).toBe(3);
    expect(outcome.tipRecords[0]).toMatchObject({ went: 'flagged by an image', spoiled: { cause: 'blunting' } });
    expect(outcome.tipRecords[0].use.path).toBeCloseTo(14 * (1.024 + 2.048) + 1.024, 9);
    expect(outcome.images[28].kept?.quality).toBe(1);
  });
});
