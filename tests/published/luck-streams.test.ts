import { describe, expect, it } from 'vitest';
import { exp, gammainc } from '../../src/chance/elementary.js';
import { LuckTable, PURPOSES } from '../../src/chance/luck.js';
import { normalQuantile } from '../../src/chance/normal.js';
import { chiSquareUpper, correlation, uniforms } from '../support/chance.js';
import { nonEmpty } from '../support/non-empty.js';

/*
 * Tests of randomness on draws as the luck table numbers them: along each index with all others fixed, and between streams that
 * differ in one index. The generator itself passes BigCrush (tests/published/generator.test.ts and src/chance/threefry.ts); what is
 * tested here is what is made of it, the numbering and the 52 bits kept.
 *
 * Tests and their distributions: D. E. Knuth, The Art of Computer Programming, vol. 2, 3rd ed., section 3.3.1 (chi-square and
 * Kolmogorov-Smirnov tests) and 3.3.2 (serial, run, collision and serial correlation tests), from memory; NIST/SEMATECH e-Handbook of
 * Statistical Methods, 1.3.5.12 (autocorrelation), 1.3.5.13 (runs), 1.3.5.16 (Kolmogorov-Smirnov). Tests over many streams, and of p-values
 * of tests, after P. L'Ecuyer and R. Simard, TestU01, ACM Trans. Math. Softw. 33 (4), 22 (2007).
 *
 * Critical values: of chi-square by the inverse incomplete gamma function, which tests/published/quantiles.test.ts holds to the handbook's
 * table; of the normal by its inverse; of Kolmogorov-Smirnov by Knuth's limit. Every comparison fails by chance with at most FALSE_ALARM,
 * shared out among pairs by Bonferroni; fewer than 100 such families stand here, so a false alarm comes less than once in ten
 * million seeds, and the seeds are fixed.
 */
const FALSE_ALARM = 1e-9;
const N = 50_000;

/** A normal deviate that is passed on either side with a chance that all of so many comparisons share. */
function bound(comparisons: number): number {
  return -normalQuantile(FALSE_ALARM / (2 * comparisons));
}

/** Draws along one index, all others fixed. */
const TABLE = new LuckTable('streams');
const LIFE = PURPOSES.life;
const ALONG: readonly [string, (i: number) => number][] = [
  ['the replication', (i) => TABLE.replication(i).uniform(LIFE, 0, 0, 0, 0)],
  ['the kind of tip or step', (i) => TABLE.replication(3).uniform(LIFE, 0, i, 0, 0)],
  ['the tip, image or occurrence', (i) => TABLE.replication(3).uniform(LIFE, 0, 0, i, 0)],
  ['the running count', (i) => TABLE.replication(3).uniform(LIFE, 0, 0, 0, i)],
  [
    'instruments, purposes and replications in turn',
    (i) => {
      const purposes = Object.values(PURPOSES);
      const luck = TABLE.replication(Math.floor(i / (256 * purposes.length)));
      return luck.uniform(purposes[Math.floor(i / 256) % purposes.length], i % 256, 0, 0, 0);
    },
  ],
];

/** Kolmogorov's K+ and K-: greatest departures of the empirical distribution of uniforms, above and below, times √n. */
function kolmogorov(u: readonly number[]): { above: number; below: number } {
  const n = u.length;
  const sorted = Float64Array.from(u).sort();
  let [above, below] = [0, 0];
  sorted.forEach((value, i) => {
    above = Math.max(above, (i + 1) / n - value);
    below = Math.max(below, value - i / n);
  });
  return { above: above * Math.sqrt(n), below: below * Math.sqrt(n) };
}

/** P(K+ > s), Knuth 3.3.1: e^(-2s²) (1 - 2s / (3√n)) but for terms of order 1/n. */
function beyond(s: number, n: number): number {
  return exp(-2 * s * s) * (1 - (2 * s) / (3 * Math.sqrt(n)));
}

function expectEven(u: readonly number[]): void {
  const { above, below } = kolmogorov(u);
  expect(beyond(above, u.length)).toBeGreaterThan(FALSE_ALARM / 2);
  expect(beyond(below, u.length)).toBeGreaterThan(FALSE_ALARM / 2);
}

function chiSquare(counts: readonly number[], expected: readonly number[]): number {
  return counts.reduce((sum, count, i) => sum + ((count - expected[i]) * (count - expected[i])) / expected[i], 0);
}

/** Neither too far from what is expected nor too near to it. */
function expectChiSquare(value: number, freedom: number): void {
  expect(value).toBeLessThan(chiSquareUpper(FALSE_ALARM / 2, freedom));
  expect(value).toBeGreaterThan(chiSquareUpper(1 - FALSE_ALARM / 2, freedom));
}

/** Counts of pairs in a grid of side × side cells. */
function gridOf(pairs: Iterable<readonly [number, number]>, side: number): number[] {
  const counts = new Array<number>(side * side).fill(0);
  for (const [one, other] of pairs) counts[Math.floor(one * side) * side + Math.floor(other * side)] += 1;
  return counts;
}

function expectGrid(counts: readonly number[]): void {
  const total = counts.reduce((sum, count) => sum + count, 0);
  expectChiSquare(
    chiSquare(
      counts,
      counts.map(() => total / counts.length),
    ),
    counts.length - 1,
  );
}

/** Lengths of runs up, the draw after each left out so that they are independent (Knuth 3.3.2 G, exercise 14): r with the chance 1/r! - 1/(r+1)!. */
function runsUp(u: readonly number[], longest: number): number[] {
  const counts = new Array<number>(longest).fill(0);
  let length = 1;
  for (let i = 1; i < u.length; i += 1) {
    if (u[i] > u[i - 1]) length += 1;
    else {
      counts[Math.min(length, longest) - 1] += 1;
      length = 1;
      i += 1;
    }
  }
  return counts;
}

/** Standardised number of runs on one side of a half (NIST/SEMATECH 1.3.5.13). */
function runsDeviate(u: readonly number[]): number {
  const high = u.filter((value) => value > 0.5).length;
  const low = u.length - high;
  const runs = u.reduce((count, value, i) => count + (i > 0 && value > 0.5 !== u[i - 1] > 0.5 ? 1 : 0), 1);
  const product = 2 * high * low;
  const variance = (product * (product - u.length)) / (u.length * u.length * (u.length - 1));
  return (runs - product / u.length - 1) / Math.sqrt(variance);
}

describe.each(ALONG)('draws along %s', (_, at) => {
  const u = Array.from({ length: N }, (_unused, i) => at(i));

  it('are uniform, by Kolmogorov and Smirnov and by chi-square in 1000 cells', () => {
    expectEven(u);
    const counts = new Array<number>(1000).fill(0);
    for (const value of u) counts[Math.floor(value * 1000)] += 1;
    expectGrid(counts);
  });

  it('fill the square evenly pair by pair, in 48 × 48 cells', () => {
    expectGrid(
      gridOf(
        Array.from({ length: N / 2 }, (_unused, i) => [u[2 * i], u[2 * i + 1]] as const),
        48,
      ),
    );
  });

  it('are uncorrelated at lags 1 to 50, 64, 128, 256 and 1024', () => {
    const lags = [...Array.from({ length: 50 }, (_unused, i) => i + 1), 64, 128, 256, 1024];
    for (const lag of nonEmpty(lags)) {
      const deviate = correlation(u.slice(lag), u.slice(0, -lag)) * Math.sqrt(N - lag);
      expect(Math.abs(deviate), `lag ${lag}`).toBeLessThan(bound(lags.length));
    }
  });

  it('have runs up of the lengths of independent draws, and as many runs above and below a half', () => {
    const longest = 6;
    const counts = runsUp(u, longest);
    const total = counts.reduce((sum, count) => sum + count, 0);
    const factorial = [1, 1, 2, 6, 24, 120, 720, 5040];
    const chances = counts.map((_unused, i) =>
      i + 1 < longest ? 1 / factorial[i + 1] - 1 / factorial[i + 2] : 1 / factorial[longest],
    );
    expectChiSquare(
      chiSquare(
        counts,
        chances.map((chance) => chance * total),
      ),
      longest - 1,
    );
    expect(Math.abs(runsDeviate(u))).toBeLessThan(bound(1));
  });
});

/** Streams of running counts that differ in one index alone. */
const BETWEEN: readonly [string, readonly ((d: number) => number)[]][] = [
  [
    'purposes',
    Object.values(PURPOSES).map((purpose) => {
      const luck = TABLE.replication(1);
      return (d: number) => luck.uniform(purpose, 0, 0, 0, d);
    }),
  ],
  [
    'replications',
    [0, 1, 2, 3, 4, 5, 6, 7, 8, 16, 32, 64, 200, 400, 65536, 4294967295].map((replication) => {
      const luck = TABLE.replication(replication);
      return (d: number) => luck.uniform(LIFE, 0, 0, 0, d);
    }),
  ],
  [
    'tips',
    [0, 1, 2, 3, 4, 5, 6, 7, 8, 16, 32, 64, 128, 256, 1024, 65536].map((tip) => {
      const luck = TABLE.replication(1);
      return (d: number) => luck.uniform(LIFE, 0, 0, tip, d);
    }),
  ],
  [
    'steps, which is where strategies that follow different workflows draw from',
    Array.from({ length: 24 }, (_, step) => {
      const luck = TABLE.replication(1);
      return (d: number) => luck.uniform(PURPOSES.stepTime, 0, step, 0, d);
    }),
  ],
  [
    'instruments',
    [0, 1, 2, 3, 4, 8, 16, 32, 64, 128, 255].map((instrument) => {
      const luck = TABLE.replication(1);
      return (d: number) => luck.uniform(LIFE, instrument, 0, 0, d);
    }),
  ],
  [
    'seeds that are alike',
    ['1', '2', '3', '11', '12', 'a', 'b', 'A', '1 ', ' 1'].map((seed) => {
      const luck = new LuckTable(seed).replication(1);
      return (d: number) => luck.uniform(LIFE, 0, 0, 0, d);
    }),
  ],
];

describe.each(BETWEEN)('streams of different %s', (_, streams) => {
  const n = 10_000;
  const columns = streams.map((draw) => Array.from({ length: n }, (_unused, d) => draw(d)));
  const pairs = columns.flatMap((one, i) => columns.slice(i + 1).map((other) => [one, other] as const));

  it('are uncorrelated pair by pair, draw for draw and shifted by one either way', () => {
    const limit = bound(3 * pairs.length);
    for (const [one, other] of nonEmpty(pairs)) {
      const alike = correlation(one, other) * Math.sqrt(n);
      const behind = correlation(one.slice(1), other.slice(0, -1)) * Math.sqrt(n - 1);
      const before = correlation(one.slice(0, -1), other.slice(1)) * Math.sqrt(n - 1);
      for (const deviate of [alike, behind, before]) expect(Math.abs(deviate)).toBeLessThan(limit);
    }
  });

  it('fill the square evenly, neighbours against each other, in 32 × 32 cells', () => {
    const neighbours = columns.slice(1).flatMap((one, i) => one.map((value, d) => [columns[i][d], value] as const));
    expectGrid(gridOf(neighbours, 32));
  });
});

describe('many short streams', () => {
  it('are uniform each for itself as often as chance has it: p-values of their chi-square tests are uniform', () => {
    // 500 replications of 1000 draws in 50 cells of 20; p-values of a count are in steps, far finer than 500 of them can tell.
    const freedom = 49;
    const pValues = Array.from({ length: 500 }, (_, replication) => {
      const luck = TABLE.replication(replication);
      const counts = new Array<number>(freedom + 1).fill(0);
      for (let d = 0; d < 1000; d += 1)
        counts[Math.floor(luck.uniform(PURPOSES.review, 0, 0, 7, d) * counts.length)] += 1;
      const value = chiSquare(
        counts,
        counts.map(() => 1000 / counts.length),
      );
      return gammainc(value / 2, freedom / 2, true, true);
    });
    expectEven(pValues);
  });

  it('collide as often as balls thrown into urns: first draws of replications, purposes and tips in 2^20 cells', () => {
    // Knuth 3.3.2 I. 2^14 balls: about n²/2m = 128 collisions, whose number is near enough Poisson (its variance is a little less).
    const [balls, urns] = [16_384, 1_048_576];
    const seen = new Set<number>();
    const purposes = Object.values(PURPOSES).slice(0, 16);
    for (let replication = 0; replication < 32; replication += 1)
      for (const purpose of purposes)
        for (let tip = 0; tip < 32; tip += 1)
          seen.add(Math.floor(TABLE.replication(replication).uniform(purpose, 0, 0, tip, 0) * urns));
    const collisions = balls - seen.size;
    const expected = balls - urns * (1 - (1 - 1 / urns) ** balls);
    // P(Poisson ≥ k) is the incomplete gamma function at k.
    expect(gammainc(expected, collisions, true, false)).toBeGreaterThan(FALSE_ALARM / 2);
    expect(gammainc(expected, collisions + 1, true, true)).toBeGreaterThan(FALSE_ALARM / 2);
  });
});

describe('strategies', () => {
  it('meet the same draw for the same thing, so what they share is all of it or nothing', () => {
    const [first, second] = [TABLE.replication(9), TABLE.replication(9)];
    const own = uniforms('streams', 1000, 5);
    const again = uniforms('streams', 1000, 5);
    expect(again).toEqual(own);
    second.uniform(PURPOSES.wear, 0, 0, 0, 0);
    for (let d = 0; d < 1000; d += 1) expect(second.uniform(LIFE, 0, 0, 1, d)).toBe(first.uniform(LIFE, 0, 0, 1, d));
  });
});

describe('these tests', () => {
  it('refuse a stream that climbs, one that is coarse, one that repeats itself and one that follows another', () => {
    const u = uniforms('refused', N);
    const climbing = u.map((value) => Math.sqrt(value));
    expect(() => {
      expectEven(climbing);
    }).toThrow();
    const coarse = u.map((value) => (Math.floor(value * 100) + 0.5) / 100);
    expect(() => {
      const counts = new Array<number>(1000).fill(0);
      for (const value of coarse) counts[Math.floor(value * 1000)] += 1;
      expectGrid(counts);
    }).toThrow();
    const repeating = u.map((value, i) => (i % 5 === 0 ? u[Math.max(0, i - 1)] : value));
    expect(Math.abs(runsDeviate(repeating))).toBeGreaterThan(bound(1));
    const following = u.map((value, i) => (i % 8 === 0 ? value : u[(i * 7919) % N]));
    expect(Math.abs(correlation(u, following)) * Math.sqrt(N)).toBeGreaterThan(bound(100));
  });
});
