import { readFileSync } from 'node:fs';
import seedrandom from 'seedrandom';
import { expect } from 'vitest';
import { z } from 'zod';
import type { Simulation } from '../../src/kernel/simulation.js';

/** Microseconds in one time unit of the published cases. */
export const UNIT = 1_000_000;

/** Ranks used by the queueing models: work ends, hours open, work starts. */
export const RANK = { end: 0, opening: 1, start: 2 } as const;

/** Reads one published case, checked against the shape that the test needs. */
export function publishedCase<T extends z.ZodRawShape>(id: string, shape: T) {
  const text = readFileSync(new URL('../../shared/check-values.json', import.meta.url), 'utf8');
  const cases = z.array(z.looseObject({ id: z.string() })).parse(JSON.parse(text));
  return z.object(shape).parse(cases.find((entry) => entry.id === id));
}

/** Exponential times with the given rate per time unit, in whole microseconds, from a stream of their own. */
export function exponential(rate: number, seed: string): () => number {
  const random = seedrandom(seed);
  return () => Math.round((-Math.log1p(-random()) / rate) * UNIT);
}

/** The time integral of something that changes by steps, over the window [from, to] of simulated time. */
export class Level {
  #value = 0;
  #since = 0;
  #integral = 0;

  constructor(
    readonly sim: Simulation,
    readonly from: number,
    readonly to: number,
  ) {}

  get value(): number {
    return this.#value;
  }

  change(by: number): void {
    this.#advance();
    this.#value += by;
  }

  /** Mean over the window; to be asked for once the simulation has passed it. */
  mean(): number {
    this.#advance();
    return this.#integral / (this.to - this.from);
  }

  #advance(): void {
    const inside = (t: number) => Math.min(Math.max(t, this.from), this.to);
    this.#integral += this.#value * (inside(this.sim.now) - inside(this.#since));
    this.#since = this.sim.now;
  }
}

/** Replications of every simulated case. */
export const REPLICATIONS = 100;

/**
 * Holds the mean of 100 independent replications to its expected value within 6.5 standard errors. A replication is
 * itself a mean over a long run, so it is close to normal, and |t| with 99 degrees of freedom exceeds 6.5 with
 * probability 3e-9: the 110 or so comparisons of the queueing files raise a false alarm less than once in a million runs.
 * The standard error must also be small enough for the comparison to tell something: 6.5 of them within `resolution`.
 */
export function expectMean(samples: readonly number[], expected: number, resolution: number): void {
  expect(samples.length).toBe(REPLICATIONS);
  const mean = samples.reduce((sum, x) => sum + x, 0) / samples.length;
  const squares = samples.reduce((sum, x) => sum + (x - mean) * (x - mean), 0);
  const allowed = 6.5 * Math.sqrt(squares / (samples.length - 1) / samples.length);
  expect(allowed).toBeLessThan(resolution);
  expect(Math.abs(mean - expected)).toBeLessThanOrEqual(allowed);
}

/** Runs all replications of one case. */
export function replicate<T>(once: (replication: number) => T): T[] {
  return Array.from({ length: REPLICATIONS }, (_, replication) => once(replication));
}
