import { WeeklyHours } from '../../src/kernel/hours.js';
import { Resource } from '../../src/kernel/resource.js';
import { Simulation, type Process } from '../../src/kernel/simulation.js';
import { Level, RANK, UNIT } from './support.js';

export interface Station {
  servers: number;
  /** Length of a run in time units; its first quarter, more than ten relaxation times, is a warm-up. */
  length: number;
  /** Customers per time unit. */
  arrivalRate: number;
  interarrival: () => number;
  service: () => number;
  /** Customers who find all servers busy go away. */
  loss?: boolean;
}

/** One run of customers coming to servers, by the kernel's resource; all measures over the window after the warm-up. */
export function runStation({ servers, length, arrivalRate, interarrival, service, loss = false }: Station) {
  const sim = new Simulation();
  const end = Math.round(length * UNIT);
  const warmUp = Math.round(end / 4);
  const resource = new Resource(sim, servers, WeeklyHours.always, RANK.opening, RANK.start);
  const [queue, system] = [new Level(sim, warmUp, end), new Level(sim, warmUp, end)];
  const waits: number[] = [];
  let lost = 0;
  function* customer(): Process {
    const arrival = sim.now;
    const measured = arrival >= warmUp;
    if (loss && resource.inUse === servers) {
      if (measured) lost += 1;
      return;
    }
    queue.change(1);
    system.change(1);
    if (resource.request(1, 0)) yield;
    queue.change(-1);
    if (measured) waits.push((sim.now - arrival) / UNIT);
    if (sim.sleepUntil(sim.now + service(), RANK.end)) yield;
    resource.release();
    system.change(-1);
  }
  function* arrivals(): Process {
    for (;;) {
      const next = sim.now + interarrival();
      if (next >= end) return;
      if (sim.sleepUntil(next, RANK.end)) yield;
      sim.spawn(customer());
    }
  }
  sim.spawn(arrivals());
  sim.run();
  const expectedCustomers = (arrivalRate * (end - warmUp)) / UNIT;
  return { waits, lost, expectedCustomers, queue: queue.mean(), system: system.mean() };
}

/**
 * Sum over the customers of a run of (what is seen - what is expected), by the mean number of customers of a run. Its
 * mean is exactly 0, where the run's own number of customers would bring in the bias of a ratio.
 */
export function excess(values: readonly number[], expected: number, expectedCustomers: number): number {
  return values.reduce((sum, value) => sum + value - expected, 0) / expectedCustomers;
}
