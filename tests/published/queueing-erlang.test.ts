import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { excess, runStation, type Station } from '../kernel/station.js';
import { exponential, expectMean, publishedCase, replicate } from '../kernel/support.js';

/** Erlang's loss formula by its usual recursion over the number of servers. */
function erlangB(servers: number, offered: number): number {
  let blocked = 1;
  for (let c = 1; c <= servers; c += 1) blocked = (offered * blocked) / (c + offered * blocked);
  return blocked;
}

// Erlang 1917; standard teletraffic tables.
describe('Erlang B and C (Erlang 1917; standard teletraffic tables)', () => {
  const { inputs, expected } = publishedCase('erlang-bc', {
    inputs: z.array(z.object({ c: z.number(), a: z.number() })),
    expected: z.array(z.object({ erlangB: z.number(), erlangC: z.number(), Lq: z.number() })),
  });
  const rows = inputs.map((input, i) => ({ ...input, ...expected[i] }));
  const station = (c: number, a: number, r: number): Station => ({
    servers: c,
    length: 5000 / c,
    arrivalRate: a,
    interarrival: exponential(a, `erlang arrivals ${c} ${a} ${r}`),
    service: exponential(1, `erlang service ${c} ${a} ${r}`),
  });

  it.each(rows)('$c servers offered $a erlangs: the formulas', ({ c, a, erlangB: B, erlangC: C, Lq }) => {
    expect(erlangB(c, a)).toBeCloseTo(B, 10);
    expect(B / (1 - (a / c) * (1 - B))).toBeCloseTo(C, 10);
    expect((C * a) / (c - a)).toBeCloseTo(Lq, 10);
  });

  it.each(rows)('$c servers offered $a erlangs: who waits, and how many', ({ c, a, erlangC: C, Lq }) => {
    const runs = replicate((r) => runStation(station(c, a, r)));
    const excesses = runs.map(({ waits, expectedCustomers }) => {
      const waited = waits.map((wait) => (wait > 0 ? 1 : 0));
      return excess(waited, C, expectedCustomers);
    });
    expectMean(excesses, 0, 0.4 * C);
    expectMean(
      runs.map((run) => run.queue),
      Lq,
      0.6 * Lq,
    );
  });

  it.each(rows)('$c servers offered $a erlangs: who is turned away', ({ c, a, erlangB: B }) => {
    const turnedAway = replicate((r) => {
      const { waits, lost, expectedCustomers } = runStation({ ...station(c, a, r), loss: true });
      return excess([...waits.map(() => 0), ...new Array<number>(lost).fill(1)], B, expectedCustomers);
    });
    expectMean(turnedAway, 0, 0.3 * B);
  });
});
