import { describe, expect, it } from 'vitest';
import { altered, faultsOf, load, SAMPLE } from './sample.js';

function told(text: string): readonly string[] {
  return faultsOf(text).map(({ severity, message }) => `${severity} ${message}`);
}

/** The sample, whose sharp tips have one hazard more. */
function withHazard(hazard: string): string {
  return altered(['mean: 800 mm}\n', `mean: 800 mm}\n      - ${hazard}\n`]);
}

function chipping(life: string, more = ''): string {
  return withHazard(`{cause: chipping, per: image, life: ${life}${more}}`);
}

describe('a life', () => {
  it.each([
    ['image', '0.009', 'read `0.009`; a life of at least 0.01 images is wanted'],
    ['approach', '0.009', 'read `0.009`; a life of at least 0.01 approaches is wanted'],
    ['distance', '90 nm', 'read `90 nm`; a life of at least 1e-4 mm is wanted'],
    ['hour', '3.5 s', 'read `3.5 s`; a life of at least 1e-3 h is wanted'],
  ])('per %s has a least length', (per, mean, message) => {
    const text = (value: string) =>
      withHazard(`{cause: breakage, per: ${per}, life: {distribution: exponential, mean: ${value}}}`);
    expect(told(text(mean))).toEqual([`error ${message}`]);
    expect(told(text({ image: '0.01', approach: '0.01', distance: '100 nm', hour: '3.6 s' }[per] ?? ''))).toEqual([]);
  });

  it.each([
    ['per: image', '0.02', '0.01 to 0.1'],
    ['per: distance', '200 nm', '200 nm to 1000 nm'],
    ['per: hour', '10 s', '10 s to 50 s'],
  ])('that is nearly too short (%s) keeps its range above that', (per, mean, text) => {
    const { register } = load(
      withHazard(`{cause: breakage, ${per}, life: {distribution: exponential, mean: ${mean}}}`),
    );
    expect(register.find(({ path }) => path === 'tips.sharp.hazards.1.life.mean')?.range?.text).toBe(text);
  });
});

describe('chipping', () => {
  it('is never certain, as it comes again and again', () => {
    expect(told(chipping('{distribution: probability, perUnit: 0.96}'))).toEqual([
      'error read `0.96`; at most 0.95 is wanted',
    ]);
    expect(told(chipping('{distribution: probability, perUnit: 0.95}'))).toEqual([]);
    const certain = '{cause: fouling, per: image, life: {distribution: probability, perUnit: 1}}';
    expect(told(withHazard(certain))).toEqual([]);
  });

  it('comes no more than a thousand times in the first scan', () => {
    const fast = (load: number) =>
      chipping('{distribution: exponential, mean: 0.01}', `, acceleration: {load: 1, referenceLoad: ${1 / load} nN}`);
    const message =
      'error a `sharp` tip would chip more than 1000 times in one scan of `topography`; a longer life or less acceleration is wanted';
    const errors = (text: string) => told(text).filter((each) => each.startsWith('error'));
    expect(errors(fast(9.9))).toEqual([]);
    expect(errors(fast(10.1))).toEqual([message]);
  });

  it('comes no more than a thousand times in a scan on a tip that was chipped and not noticed', () => {
    const message =
      'error a `sharp` tip would chip more than 1000 times in one scan of `topography`, once it is chipped and nobody notices; a longer life or less acceleration is wanted';
    expect(told(chipping('{distribution: weibull, shape: 3, scale: 10}'))).toEqual([]);
    expect(told(chipping('{distribution: weibull, shape: 50, scale: 5}'))).toEqual([message]);
  });
});

describe('a range whose end lies far off', () => {
  /** Chips are taken not to hang on the load, which may be wrong by an exponent of up to 3. */
  const far = (more = '') =>
    `${more}${chipping('{distribution: exponential, mean: 100}', ', acceleration: {referenceLoad: 0.00005 nN}')}`;
  const EXPONENT = 'tips.sharp.hazards.chipping.acceleration.load';
  const rangeOf = (text: string) => load(text).register.find(({ path }) => path === EXPONENT)?.range;

  it('ends where a tip chips no more than a thousand times in a scan, and that is said', () => {
    const [warning, ...others] = told(far());
    expect(warning).toMatch(
      /^warning its range ends at `1\.16` in place of `3`, where a `sharp` tip would chip more than 1000 times in one scan of `topography`$/u,
    );
    expect(others).toEqual([]);
    // 1 nN over 0.00005 nN, to the power of 1.16, is 97 000 a scan, over a mean of 100; one hundredth more is beyond 1000.
    expect(rangeOf(far())).toEqual({ low: 0, high: 1.16, text: '0 to 1.16' });
    expect(20_000 ** 1.16 / 100).toBeLessThan(1000);
    expect(20_000 ** 1.17 / 100).toBeGreaterThan(1000);
  });

  it('is cut where a person gave it, too', () => {
    const given = far(`ranges: { ${EXPONENT}: [0, 2] }\n`);
    expect(told(given)).toEqual([expect.stringContaining('its range ends at `1.16` in place of `2`')]);
    expect(rangeOf(far(`ranges: { ${EXPONENT}: [0, 1] }\n`))).toMatchObject({ text: '0 to 1' });
  });
});

describe('a scan after an idle closing', () => {
  const booked = (hours: string, steps = '{}') =>
    altered(
      ['lines: 128', 'lines: 512\n      lineRate: 0.5 Hz'],
      ['workflows:\n', `bookings: {hours: "${hours}"}\nworkflows:\n  swap: {steps: ${steps}}\n`],
      ['workflow: hop', 'workflow: swap'],
    );

  it('usually fits into a booking, or the file is told so', () => {
    // 1024 s of scanning after 20 + 1 + 3 min.
    expect(told(booked('Mo-Fr 09:00-09:42'))).toEqual([]);
    expect(told(booked('Mo-Fr 09:00-09:41'))).toEqual([
      'warning after a closing an image of the pass `topography` (17.1 min) comes after warming up, approaching and finding the region again (usually 24 min), together longer than every booking (41 min at most)',
    ]);
  });

  it('must fit where the steps before it are never shorter', () => {
    expect(told(booked('Mo-Fr 09:00-09:41', '{warmUp: 25 min}'))).toEqual([
      'error after a closing an image of the pass `topography` (17.1 min) comes after warming up, approaching and finding the region again (at least 25 min), together longer than every booking (41 min at most)',
    ]);
  });

  it('may be reached across a closing shorter than the steps before it', () => {
    expect(told(booked('Mo 09:00-09:41, Mo 09:43-10:24', '{warmUp: 25 min}'))).toEqual([
      expect.stringMatching(/^warning after a closing an image of the pass `topography`/u),
    ]);
  });

  it('needs nothing of the kind where bookings never close', () => {
    expect(told(SAMPLE)).toEqual([]);
  });
});

describe('a new tip that wears', () => {
  it('is judged by its radius at mid-image, as the image is', () => {
    // R³ grows by k·F·(L/2) / c(20°) = 30 · 1 · 20.48 / 1.326 = 463 from 512 nm³ at the median: 9.92 nm, which tells 8.91 nm apart.
    const sharp = (wear: string) =>
      altered(
        ['size: 5 um', 'size: 5 um\n      pixels: 4096\n      accept: 0.95\n      load: 1 nN'],
        ['lines: 128', 'lines: 4096'],
        ['neededResolution: 100 nm', 'neededResolution: 8.2 nm'],
        ['  sharp:\n', `  sharp:\n    radius: {geometricSd: 1}\n${wear}`],
      );
    expect(told(sharp(''))).toEqual([]);
    expect(told(sharp('    blunting: {wear: {coefficient: 30 nm3/(nN mm)}}\n'))).toEqual([
      expect.stringContaining('error a new `sharp` tip of median radius misses what `topography` accepts'),
    ]);
    expect(told(sharp('    blunting: {wear: {coefficient: 5 nm3/(nN mm)}}\n'))).toEqual([]);
  });
});
