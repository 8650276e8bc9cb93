import seedrandom from 'seedrandom';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { excess, runStation } from '../kernel/station.js';
import { exponential, expectMean, publishedCase, replicate, UNIT } from '../kernel/support.js';

/** Mean number in the system and in the queue, and mean wait, each with a standard error below a share of itself. */
function expectSteadyState(
  runs: readonly ReturnType<typeof runStation>[],
  { L, Lq, Wq }: { readonly L: number; readonly Lq: number; readonly Wq: number },
): void {
  expectMean(
    runs.map((run) => run.system),
    L,
    0.15 * L,
  );
  expectMean(
    runs.map((run) => run.queue),
    Lq,
    0.15 * Lq,
  );
  expectMean(
    runs.map((run) => excess(run.waits, Wq, run.expectedCustomers)),
    0,
    0.15 * Wq,
  );
}

// Gross & Harris, Fundamentals of Queueing Theory, ch. 2.
describe('M/M/1 (Gross & Harris, ch. 2)', () => {
  const { expected } = publishedCase('mm1', {
    expected: z.array(
      z.object({
        lam: z.number(),
        mu: z.number(),
        rho: z.number(),
        L: z.number(),
        Lq: z.number(),
        W: z.number(),
        Wq: z.number(),
        p0: z.number(),
        P_wait_gt_t: z.object({ t: z.number(), p: z.number() }),
      }),
    ),
  });
  it.each(expected)('arrivals at $lam, service at $mu', ({ lam, mu, rho, L, Lq, W, Wq, p0, P_wait_gt_t: { t, p } }) => {
    expect(rho).toBeCloseTo(lam / mu, 12);
    expect(L).toBeCloseTo(rho / (1 - rho), 12);
    expect(W).toBeCloseTo(1 / (mu - lam), 12);
    expect(p).toBeCloseTo(rho * Math.exp(-(mu - lam) * t), 12);
    const runs = replicate((r) =>
      runStation({
        servers: 1,
        length: 4000 / mu,
        arrivalRate: lam,
        interarrival: exponential(lam, `mm1 arrivals ${lam} ${r}`),
        service: exponential(mu, `mm1 service ${lam} ${r}`),
      }),
    );
    expectSteadyState(runs, { L, Lq, Wq });
    expectMean(
      runs.map((run) =>
        excess(
          run.waits.map((wait) => (wait > t ? 1 : 0)),
          p,
          run.expectedCustomers,
        ),
      ),
      0,
      0.05,
    );
    expectMean(
      runs.map((run) =>
        excess(
          run.waits.map((wait) => (wait === 0 ? 1 : 0)),
          p0,
          run.expectedCustomers,
        ),
      ),
      0,
      0.05,
    );
  });
});

// Gross & Harris, ch. 5: the Pollaczek-Khinchine formula.
describe('M/G/1 (Pollaczek-Khinchine; Gross & Harris, ch. 5)', () => {
  const { inputs, expected } = publishedCase('mg1', {
    inputs: z.array(z.object({ kind: z.string(), lam: z.number(), mean_service: z.number(), scv: z.number() })),
    expected: z.array(z.object({ Wq: z.number(), Lq: z.number(), W: z.number(), L: z.number() })),
  });

  /** Service times of mean 1 in time units, from two uniforms. */
  const services: Record<string, (u: number, v: number) => number> = {
    'M/D/1': () => 1,
    'M/Erlang2/1': (u, v) => -(Math.log1p(-u) + Math.log1p(-v)) / 2,
    // Box and Muller's normal deviate; mean of the lognormal exp(-1/2 + 1/2) = 1.
    'M/LogN/1 sigma=1': (u, v) => Math.exp(Math.sqrt(-2 * Math.log1p(-u)) * Math.cos(2 * Math.PI * v) - 0.5),
    // Gamma(3/2) = sqrt(pi) / 2.
    'M/Weibull(2)/1': (u) => Math.sqrt(-Math.log1p(-u)) / (Math.sqrt(Math.PI) / 2),
  };

  it.each(inputs.map((input, i) => ({ ...input, ...expected[i] })))('$kind', ({ kind, lam, scv, Wq, Lq, L }) => {
    expect(Wq).toBeCloseTo((lam * (1 + scv)) / (2 * (1 - lam)), 9);
    const runs = replicate((r) => {
      const random = seedrandom(`${kind} ${r}`);
      return runStation({
        servers: 1,
        length: 4000,
        arrivalRate: lam,
        interarrival: exponential(lam, `mg1 arrivals ${kind} ${r}`),
        service: () => Math.round(services[kind](random(), random()) * UNIT),
      });
    });
    expectSteadyState(runs, { L, Lq, Wq });
  });
});
