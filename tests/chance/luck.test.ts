import { Worker } from 'node:worker_threads';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { LuckTable, PURPOSES, type Purpose } from '../../src/chance/luck.js';
import { average, chiSquareUpper, correlation, uniforms } from '../support/chance.js';
import { luckDigest } from '../support/luck-digest.js';
import { nonEmpty } from '../support/non-empty.js';

type Indices = readonly [replication: number, purpose: Purpose, a: number, b: number, c: number, d: number];

const TWO_32 = 2 ** 32;
const draw = (table: LuckTable, [replication, purpose, a, b, c, d]: Indices) =>
  table.replication(replication).uniform(purpose, a, b, c, d);

const purposes = fc.constantFrom(...Object.values(PURPOSES));
const below = (limit: number) => fc.oneof(fc.constantFrom(0, 1, limit - 1), fc.nat(limit - 1));
const indices = fc.tuple(below(TWO_32), purposes, below(256), below(65536), below(TWO_32), below(TWO_32));

/** 10^5 draws along one index, all others fixed. */
const N = 100_000;
/** Bound on a standard normal deviate: passed by chance once in 2.6e7, so the dozen or so comparisons of a test fail once in 10^6. */
const Z = 5.5;

describe('the luck table', () => {
  it('has published draws that never change', () => {
    const table = new LuckTable('swap or hop');
    const published: [Indices, number][] = [
      [[0, PURPOSES.dead, 0, 0, 0, 0], 0.8060098752638994],
      [[0, PURPOSES.radius, 0, 0, 0, 0], 0.65022187100353],
      [[0, PURPOSES.life, 0, 0, 0, 0], 0.5042225554625542],
      [[0, PURPOSES.life, 0, 0, 0, 1], 0.3466074712830397],
      [[0, PURPOSES.life, 0, 0, 1, 0], 0.3631671957947459],
      [[0, PURPOSES.life, 0, 1, 0, 0], 0.9094699620332972],
      [[0, PURPOSES.life, 1, 0, 0, 0], 0.692811542646732],
      [[1, PURPOSES.life, 0, 0, 0, 0], 0.9676575074366484],
      [[123456, PURPOSES.stepTime, 2, 14, 900, 3], 0.4231301955855703],
      [[4294967295, PURPOSES.specimenLoss, 255, 65535, 4294967295, 4294967295], 0.22898826904820602],
    ];
    for (const [at, value] of nonEmpty(published)) expect(draw(table, at)).toBe(value);
  });

  it('has published lives and durations that never change', () => {
    expect(luckDigest(100_000, 2000)).toBe('b4d85e0d');
  });

  it('gives a draw that does not depend on the order of asking', () => {
    fc.assert(
      fc.property(fc.array(indices, { minLength: 2, maxLength: 30 }), fc.string(), (asked, seed) => {
        const forward = asked.map((at) => draw(new LuckTable(seed), at));
        const shared = new LuckTable(seed);
        const backward = [...asked].reverse().map((at) => draw(shared, at));
        expect(backward.reverse()).toEqual(forward);
      }),
      { seed: 1, numRuns: 200 },
    );
  });

  it('gives the same draws in threads that share the work as in one', async () => {
    const module = new URL('../../dist/chance/luck.js', import.meta.url).href;
    const code = `
      import { parentPort, workerData } from 'node:worker_threads';
      const { LuckTable } = await import(workerData.module);
      const luck = new LuckTable(workerData.seed).replication(workerData.replication);
      parentPort.postMessage(workerData.counts.map((d) => luck.uniform(3, 1, 2, 3, d)));`;
    const half = (counts: number[]) =>
      new Promise<number[]>((resolve, reject) => {
        const url = new URL(`data:text/javascript,${encodeURIComponent(code)}`);
        const worker = new Worker(url, { workerData: { module, seed: 'threads', replication: 5, counts } });
        worker.once('message', (draws) => {
          resolve(z.array(z.number()).parse(draws));
        });
        worker.once('error', reject);
      });
    const counts = Array.from({ length: 1000 }, (_, d) => d);
    const [even, odd] = await Promise.all([
      half(counts.filter((d) => d % 2 === 0)),
      half(counts.filter((d) => d % 2 === 1)),
    ]);
    const luck = new LuckTable('threads').replication(5);
    const alone = counts.map((d) => luck.uniform(PURPOSES.life, 1, 2, 3, d));
    expect(counts.map((d) => (d % 2 === 0 ? even : odd)[Math.floor(d / 2)])).toEqual(alone);
  });

  it('never gives one draw to two sets of indices', () => {
    // Two different blocks agree in their 52 bits once in 4.5e15 pairs.
    fc.assert(
      fc.property(indices, indices, (one, other) => {
        fc.pre(one.some((index, field) => index !== other[field]));
        const table = new LuckTable('injective');
        expect(draw(table, one)).not.toBe(draw(table, other));
      }),
      { seed: 2, numRuns: 2000 },
    );
  });

  it('keeps the fields of the counter apart where one is full and the next empty', () => {
    const ends = (limit: number) => [0, 1, limit - 1];
    const table = new LuckTable('fields');
    const draws = new Set<number>();
    for (const r of ends(TWO_32))
      for (const purpose of Object.values(PURPOSES))
        for (const a of ends(256))
          for (const b of ends(65536))
            for (const c of ends(TWO_32))
              for (const d of ends(TWO_32)) draws.add(draw(table, [r, purpose, a, b, c, d]));
    expect(draws.size).toBe(Object.keys(PURPOSES).length * 3 ** 5);
  });

  it('has a number of its own for each purpose, in one byte', () => {
    const numbers = Object.values(PURPOSES);
    expect(new Set(numbers).size).toBe(numbers.length);
    expect(Math.max(...numbers)).toBeLessThan(256);
  });

  it.each([
    [[0, PURPOSES.dead, 256, 0, 0, 0]],
    [[0, PURPOSES.dead, 0, 65536, 0, 0]],
    [[0, PURPOSES.dead, 0, 0, TWO_32, 0]],
    [[0, PURPOSES.dead, 0, 0, 0, TWO_32]],
    [[0, PURPOSES.dead, 0, 0, 0, -1]],
    [[0, PURPOSES.dead, 0, 0.5, 0, 0]],
    [[TWO_32, PURPOSES.dead, 0, 0, 0, 0]],
    [[0, PURPOSES.dead, 0, 0, NaN, 0]],
  ] as const)('refuses indices that do not fit their field: %j', (at) => {
    expect(() => draw(new LuckTable('range'), at)).toThrow(RangeError);
  });

  it('stays strictly inside (0, 1), where u and 1 - u are both exact', () => {
    fc.assert(
      fc.property(fc.string(), indices, (seed, at) => {
        const u = draw(new LuckTable(seed), at);
        expect(u).toBeGreaterThan(0);
        expect(u).toBeLessThan(1);
        expect((u * 2 ** 53) % 2).toBe(1);
        expect(1 - (1 - u)).toBe(u);
      }),
      { seed: 3, numRuns: 1000 },
    );
  });

  it('tells seed texts apart of which one repeats another', () => {
    const at: Indices = [0, PURPOSES.life, 0, 0, 0, 0];
    const seeds = ['1', '11', '111', '1111', '3', '33', '3333', 'ab', 'abab', 'Łł', 'ŁłŁł', '11.', '1.1.'];
    expect(new Set(seeds.map((seed) => draw(new LuckTable(seed), at))).size).toBe(seeds.length);
  });

  it('tells seed texts apart that differ only above the low byte of a character', () => {
    const at: Indices = [0, PURPOSES.life, 0, 0, 0, 0];
    const seeds = ['A', 'Ł', 'a', '', ' ', '0', '41', '1', 'é', 'é'.normalize('NFD')];
    expect(new Set(seeds.map((seed) => draw(new LuckTable(seed), at))).size).toBe(seeds.length);
  });
});

describe('the draws of the luck table', () => {
  const along: Record<string, (table: LuckTable, i: number) => number> = {
    replication: (table, i) => draw(table, [i, PURPOSES.life, 0, 0, 0, 0]),
    instrument: (table, i) => draw(table, [Math.floor(i / 256), PURPOSES.life, i % 256, 0, 0, 0]),
    'kind or step': (table, i) => draw(table, [Math.floor(i / 65536), PURPOSES.life, 0, i % 65536, 0, 0]),
    'tip, image or occurrence': (table, i) => draw(table, [0, PURPOSES.life, 0, 0, i, 0]),
    'running count': (table, i) => draw(table, [0, PURPOSES.life, 0, 0, 0, i]),
  };

  it.each(Object.entries(along))('are even and uncorrelated along the %s', (_, at) => {
    const table = new LuckTable('even');
    const u = Array.from({ length: N }, (_unused, i) => at(table, i));
    // Mean and lag correlations in standard errors: n = 10^5, six comparisons at |z| < 5.5.
    expect(Math.abs(average(u) - 0.5) * Math.sqrt(12 * N)).toBeLessThan(Z);
    for (const lag of [1, 2, 3, 7, 256]) {
      expect(Math.abs(correlation(u.slice(lag), u.slice(0, -lag))) * Math.sqrt(N - lag)).toBeLessThan(Z);
    }
    // 256 bins of about 390: too uneven or too even each once in 5e-7.
    const counts = new Array<number>(256).fill(0);
    for (const value of u) counts[Math.floor(256 * value)] += 1;
    const chiSquare = counts.reduce((sum, count) => sum + ((count - N / 256) * (count - N / 256)) / (N / 256), 0);
    expect(chiSquare).toBeLessThan(chiSquareUpper(2.5e-7, 255));
    expect(chiSquare).toBeGreaterThan(chiSquareUpper(1 - 2.5e-7, 255));
  });

  it('are uncorrelated between purposes and between seeds that are alike', () => {
    // n = 10^5, 17 comparisons at |z| < 5.6 (once in 4.7e7 each).
    const columns = Object.values(PURPOSES).map((purpose) => uniforms('purposes', N, 0, purpose));
    const pairs = columns.slice(1).map((column, i) => [column, columns[i]]);
    pairs.push([uniforms('1', N), uniforms('2', N)]);
    for (const [one, other] of nonEmpty(pairs))
      expect(Math.abs(correlation(one, other)) * Math.sqrt(N)).toBeLessThan(5.6);
  });

  it('have every bit set half of the time, from the highest to the lowest', () => {
    // n = 10^5, 52 bits at |z| < 5.8: a false alarm once in 2.9e6.
    const set = new Array<number>(52).fill(0);
    for (const u of uniforms('bits', N)) {
      let bits = (u * 2 ** 53 - 1) / 2;
      for (let bit = 0; bit < 52; bit += 1) {
        set[bit] += bits % 2;
        bits = Math.floor(bits / 2);
      }
    }
    for (const count of nonEmpty(set)) expect(Math.abs(count - N / 2) / Math.sqrt(N / 4)).toBeLessThan(5.8);
  });
});
