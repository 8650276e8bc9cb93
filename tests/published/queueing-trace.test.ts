import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { WeeklyHours } from '../../src/kernel/hours.js';
import { Resource } from '../../src/kernel/resource.js';
import { Simulation, type Process } from '../../src/kernel/simulation.js';
import { Level, publishedCase, RANK, UNIT } from '../kernel/support.js';

// Law, Simulation Modeling and Analysis, sec. 1.4.2: a single server, simulated by hand (data from memory, reproduced).
describe('the single server simulated by hand (Distribution, sec. 1.4.2)', () => {
  it('gives the same delays, queue and utilisation, exactly', () => {
    const { inputs, expected } = publishedCase('law-single-server-trace', {
      inputs: z.object({ interarrival: z.array(z.number()), service: z.array(z.number()) }),
      expected: z.object({
        delays: z.array(z.number()),
        mean_delay: z.number(),
        T_end: z.number(),
        area_queue: z.number(),
        time_avg_queue: z.number(),
        busy: z.number(),
        utilisation: z.number(),
      }),
    });
    const sim = new Simulation();
    const server = new Resource(sim, 1, WeeklyHours.always, RANK.opening, RANK.start);
    const end = Math.round(expected.T_end * UNIT);
    const [queue, busy] = [new Level(sim, 0, end), new Level(sim, 0, end)];
    const delays: number[] = [];
    let lastStart = 0;
    function* customer(service: number): Process {
      const arrival = sim.now;
      queue.change(1);
      if (server.request(1, 0)) yield;
      queue.change(-1);
      busy.change(1);
      lastStart = sim.now;
      delays.push(sim.now - arrival);
      if (sim.sleepUntil(sim.now + service, RANK.end)) yield;
      busy.change(-1);
      server.release();
    }
    let arrival = 0;
    inputs.interarrival.forEach((gap, i) => {
      arrival += Math.round(gap * UNIT);
      // Those who come after the sixth are not served before the run stops: any time will do.
      sim.spawn(customer(Math.round((inputs.service[i] ?? 1) * UNIT)), arrival);
    });
    // The run stops when the sixth customer enters service; that very instant is still part of it.
    sim.run(end + 1);

    expect(delays).toEqual(expected.delays.map((delay) => Math.round(delay * UNIT)));
    expect(lastStart).toBe(end);
    expect(delays.reduce((sum, delay) => sum + delay, 0) / delays.length / UNIT).toBeCloseTo(expected.mean_delay, 9);
    expect((queue.mean() * end) / UNIT).toBeCloseTo(expected.area_queue, 9);
    expect(queue.mean()).toBeCloseTo(expected.time_avg_queue, 9);
    expect((busy.mean() * end) / UNIT).toBeCloseTo(expected.busy, 9);
    expect(busy.mean()).toBeCloseTo(expected.utilisation, 9);
  });
});
