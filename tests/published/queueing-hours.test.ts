import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { WeeklyHours } from '../../src/kernel/hours.js';
import { Resource } from '../../src/kernel/resource.js';
import { Simulation, type Process } from '../../src/kernel/simulation.js';
import { exponential, expectMean, Level, publishedCase, RANK, replicate } from '../kernel/support.js';

const HOUR = 3_600_000_000;
const DAYS = 7 * 40;
const WARM_UP_DAYS = 7;

/** Exponential times in microseconds with a rate per hour. */
const hourly = (rate: number, seed: string) => exponential(rate / 3600, seed);

/** One run of an instrument that runs day and night and an operator on shift; hours as the unit of the case. */
function runInstrument(failRate: number, repairRate: number | undefined, on: number, seed: string) {
  const sim = new Simulation();
  const shift = new WeeklyHours(
    [0, 1, 2, 3, 4, 5, 6].map((day) => ({ from: 24 * day * HOUR, to: (24 * day + on) * HOUR })),
  );
  const operator = new Resource(sim, 1, shift, RANK.opening, RANK.start);
  const from = 24 * WARM_UP_DAYS * HOUR;
  const to = from + 24 * DAYS * HOUR;
  const up = new Level(sim, from, to);
  const life = hourly(failRate, `${seed} life`);
  const repairTime = repairRate === undefined ? undefined : hourly(repairRate, `${seed} repair`);
  let failures = 0;

  function* repair(): Process {
    let left = repairTime?.() ?? 0;
    do {
      if (operator.request(1, 0)) yield;
      // The kernel never breaks off what has started; stopping at the closing is the process's own doing.
      const stop = Math.min(sim.now + left, shift.closing(sim.now));
      left -= stop - sim.now;
      if (sim.sleepUntil(stop, RANK.end)) yield;
      operator.release();
    } while (left > 0);
  }
  function* instrument(): Process {
    for (;;) {
      up.change(1);
      if (sim.sleepUntil(sim.now + life(), RANK.end)) yield;
      up.change(-1);
      if (sim.now >= from && sim.now < to) failures += 1;
      yield* repair();
    }
  }
  sim.spawn(instrument());
  sim.run(to);
  return { availability: up.mean(), failuresPerDay: failures / DAYS };
}

// Two-state Markov model with repair only on shift (preempt-resume): periodic solution derived for the case, checked
// there by an independent event simulation.
describe('an instrument whose operator works in shifts (two-state Markov model, derived)', () => {
  const { inputs, expected } = publishedCase('shift-availability', {
    inputs: z.array(
      z.object({ fail_rate: z.number(), repair_rate: z.number().optional(), on: z.number(), day: z.literal(24) }),
    ),
    expected: z.array(z.object({ availability: z.number(), failures_per_day: z.number() })),
  });
  const rows = inputs.map((input, i) => ({
    ...input,
    ...expected[i],
    how: input.repair_rate === undefined ? 'at once' : `at ${input.repair_rate} an hour`,
  }));

  it.each(rows.filter((row) => row.repair_rate === undefined))(
    'fails at $fail_rate an hour, repaired at once on shift: the formula',
    ({ fail_rate, on, availability, failures_per_day }) => {
      const upOffShift = -Math.expm1(-fail_rate * (24 - on)) / fail_rate;
      expect((on + upOffShift) / 24).toBeCloseTo(availability, 10);
      expect(fail_rate * 24 * availability).toBeCloseTo(failures_per_day, 10);
    },
  );

  it.each(rows)(
    'fails at $fail_rate an hour, repaired $how on shift: the kernel',
    ({ fail_rate, repair_rate, on, availability, failures_per_day }) => {
      const runs = replicate((r) =>
        runInstrument(fail_rate, repair_rate, on, `shift ${fail_rate} ${repair_rate ?? 0} ${r}`),
      );
      expectMean(
        runs.map((run) => run.availability),
        availability,
        0.02,
      );
      expectMean(
        runs.map((run) => run.failuresPerDay),
        failures_per_day,
        0.1 * failures_per_day,
      );
    },
  );
});
