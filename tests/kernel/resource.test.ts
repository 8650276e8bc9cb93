import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { WeeklyHours } from '../../src/kernel/hours.js';
import { Resource, type Window } from '../../src/kernel/resource.js';
import { Simulation, type Process } from '../../src/kernel/simulation.js';

const [END, OPENING, START] = [0, 2, 5];
const HOUR = 3_600_000_000;
const daily = (from: number, to: number) =>
  new WeeklyHours([0, 1, 2, 3, 4, 5, 6].map((day) => ({ from: (24 * day + from) * HOUR, to: (24 * day + to) * HOUR })));

interface Job {
  name: string;
  arrival: number;
  work: number;
  number?: number;
  units?: 0 | 1;
  window?: Window;
}

/** Runs the jobs (times in hours) and gives the start of each in order, in hours. */
function starts(jobs: readonly Job[], capacity: number, hours = WeeklyHours.always, sim = new Simulation()) {
  const resource = new Resource(sim, capacity, hours, OPENING, START);
  const log: [string, number][] = [];
  function* process({ name, work, number = 0, units = 1, window }: Job): Process {
    if (resource.request(units, number, window)) yield;
    log.push([name, sim.now / HOUR]);
    expect(resource.inUse).toBeLessThanOrEqual(capacity);
    if (sim.sleepUntil(sim.now + work * HOUR, END)) yield;
    if (units === 1) resource.release();
  }
  for (const job of jobs) sim.spawn(process(job), job.arrival * HOUR, END, job.name);
  sim.run();
  return log;
}

describe('a resource', () => {
  it('serves by arrival, then by number', () => {
    const log = starts(
      [
        { name: 'holder', arrival: 0, work: 10 },
        { name: 'late', arrival: 5, work: 1, number: 0 },
        { name: 'early, number 7', arrival: 4, work: 1, number: 7 },
        { name: 'early, number 3', arrival: 4, work: 1, number: 3 },
      ],
      1,
    );
    expect(log).toEqual([
      ['holder', 0],
      ['early, number 3', 10],
      ['early, number 7', 11],
      ['late', 12],
    ]);
  });

  it('compares by number all that arrive in the instant in which a unit is free', () => {
    const log = starts(
      [
        { name: 'number 2', arrival: 4, work: 1, number: 2 },
        { name: 'number 1', arrival: 4, work: 1, number: 1 },
      ],
      1,
    );
    expect(log).toEqual([
      ['number 1', 4],
      ['number 2', 5],
    ]);
  });

  it('serves those who wait before one who comes in the instant of a release', () => {
    const log = starts(
      [
        { name: 'newcomer', arrival: 10, work: 1, number: 0 },
        { name: 'holder', arrival: 0, work: 10 },
        { name: 'waiting', arrival: 1, work: 1, number: 9 },
      ],
      1,
    );
    expect(log.map(([name]) => name)).toEqual(['holder', 'waiting', 'newcomer']);
  });

  it('grants as many units as it has', () => {
    const jobs = ['a', 'b', 'c', 'd', 'e'].map((name, number) => ({ name, number, arrival: 0, work: 2 }));
    expect(starts(jobs, 2).map(([, hour]) => hour)).toEqual([0, 0, 2, 2, 4]);
  });

  it('does not let one that cannot start block those behind it', () => {
    const log = starts(
      [
        { name: 'needs the evening', arrival: 9, work: 1, window: { hours: daily(18, 20), room: HOUR } },
        { name: 'any time', arrival: 10, work: 1 },
      ],
      1,
    );
    expect(log).toEqual([
      ['any time', 10],
      ['needs the evening', 18],
    ]);
  });

  it('grants only inside its hours, and lets what has started be finished after them', () => {
    const log = starts(
      [
        { name: 'first', arrival: 16, work: 3 },
        { name: 'second', arrival: 16.5, work: 1 },
        { name: 'at closing', arrival: 41, work: 1 },
      ],
      1,
      daily(9, 17),
    );
    expect(log).toEqual([
      ['first', 16],
      ['second', 33],
      ['at closing', 57],
    ]);
  });

  it('needs its own hours and those of the window, with room in the window', () => {
    const window = { hours: daily(8, 12), room: 2 * HOUR };
    const log = starts(
      [
        { name: 'fits', arrival: 9.5, work: 1, window },
        { name: 'does not fit today', arrival: 10.5, work: 1, window },
        { name: 'too early', arrival: 32, work: 1, window },
      ],
      3,
      daily(9, 17),
    );
    expect(log).toEqual([
      ['fits', 9.5],
      ['does not fit today', 33],
      ['too early', 33],
    ]);
  });

  it('never grants where hours and window do not meet, and the run ends', () => {
    const sim = new Simulation();
    const evening = { hours: daily(18, 20), room: 0 };
    const tooLong = { hours: daily(9, 17), room: 9 * HOUR };
    const jobs = [evening, tooLong].map((window, i) => ({ name: `job ${i}`, arrival: 10, work: 1, window }));
    expect(starts(jobs, 1, daily(9, 17), sim)).toEqual([]);
    expect(sim.now).toBe(10 * HOUR);
  });

  it('asked for presence only, waits for the hours and not for a unit', () => {
    const log = starts(
      [
        { name: 'holder', arrival: 9, work: 8 },
        { name: 'present', arrival: 10, work: 8, units: 0 },
        { name: 'absent', arrival: 20, work: 1, units: 0 },
      ],
      1,
      daily(9, 17),
    );
    expect(log).toEqual([
      ['holder', 9],
      ['present', 10],
      ['absent', 33],
    ]);
  });

  it('schedules nothing for its calendar while nobody waits', () => {
    const sim = new Simulation();
    starts([{ name: 'a', arrival: 10, work: 1 }], 1, daily(9, 17), sim);
    expect(sim.now).toBe(11 * HOUR);
  });

  it('forgets a request withdrawn after an interrupt, and gives its unit to the next', () => {
    const sim = new Simulation();
    const resource = new Resource(sim, 1, daily(9, 17), OPENING, START);
    const log: unknown[] = [];
    function* impatient(): Process {
      const reason = resource.request(1, 0) ? yield : undefined;
      if (reason !== undefined) resource.withdraw();
      log.push(['impatient', sim.now / HOUR, reason]);
    }
    const task = sim.spawn(impatient());
    sim.interruptAt(task, 3 * HOUR, END, 'tired');
    sim.run();
    expect(log).toEqual([['impatient', 3, 'tired']]);
    expect(sim.now).toBe(3 * HOUR);
    function* next(): Process {
      if (resource.request(1, 0)) yield;
      log.push(['next', sim.now / HOUR]);
    }
    sim.spawn(next());
    sim.run();
    expect(log.at(-1)).toEqual(['next', 9]);
    expect(resource.inUse).toBe(1);
  });

  it('forgets no other request than that of the process which takes its own back', () => {
    const sim = new Simulation();
    const resource = new Resource(sim, 1, WeeklyHours.always, OPENING, START);
    const log: unknown[] = [];
    function* asks(name: string): Process {
      const reason = resource.request(1, 0) ? yield : undefined;
      log.push([name, sim.now, reason]);
      if (reason !== undefined) {
        resource.withdraw();
        return;
      }
      if (sim.sleepUntil(sim.now + 10, END)) yield;
      resource.release();
    }
    sim.spawn(asks('holds'));
    sim.spawn(asks('before'), 1);
    const tired = sim.spawn(asks('tired'), 2);
    sim.spawn(asks('behind'), 3);
    sim.interruptAt(tired, 5, END, 'tired');
    sim.run();
    expect(log).toEqual([
      ['holds', 0, undefined],
      ['tired', 5, 'tired'],
      ['before', 10, undefined],
      ['behind', 20, undefined],
    ]);
  });

  it('takes back a unit granted in the very instant of the interrupt', () => {
    const sim = new Simulation();
    const resource = new Resource(sim, 1, WeeklyHours.always, OPENING, START);
    const log: unknown[] = [];
    function* holder(): Process {
      if (resource.request(1, 0)) yield;
      if (sim.sleepUntil(10, END)) yield;
      resource.release();
    }
    function* asks(name: string): Process {
      const reason = resource.request(1, 1) ? yield : undefined;
      log.push([name, sim.now, reason]);
      if (reason !== undefined) resource.withdraw();
    }
    sim.spawn(holder());
    const first = sim.spawn(asks('first'), 1);
    sim.spawn(asks('second'), 2);
    // Comes after the decision at 10, which is put off once, and before the process granted is resumed.
    function* spoiler(): Process {
      if (sim.sleepUntil(10, END)) yield;
      if (sim.sleepUntil(10, START)) yield;
      if (sim.sleepUntil(10, START)) yield;
      expect(resource.inUse).toBe(1);
      sim.interruptAt(first, 10, END, 'tired');
    }
    sim.spawn(spoiler(), 3);
    sim.run();
    expect(log).toEqual([
      ['first', 10, 'tired'],
      ['second', 10, undefined],
    ]);
    expect(resource.inUse).toBe(1);
  });

  it('refuses a release of what is not in use', () => {
    expect(() => {
      new Resource(new Simulation(), 1, WeeklyHours.always, OPENING, START).release();
    }).toThrow(/not in use/);
  });

  it('gives the same starts without the fast path and with events that do nothing', () => {
    const hour = fc.integer({ min: 0, max: 60 });
    const windows = [undefined, { hours: daily(8, 12), room: 2 * HOUR }, { hours: daily(11, 16), room: 0 }];
    const jobs = fc.array(
      fc.record({
        arrival: hour,
        work: fc.nat(9),
        number: fc.nat(3),
        units: fc.constantFrom<0 | 1>(0, 1, 1),
        kind: fc.nat(2),
      }),
      { minLength: 1, maxLength: 10 },
    );
    const noOps = fc.array(fc.record({ time: hour, rank: fc.nat(6) }), { maxLength: 20 });
    fc.assert(
      fc.property(jobs, fc.integer({ min: 1, max: 2 }), noOps, (list, capacity, extra) => {
        const named = list.map(({ kind, ...job }, i): Job => {
          const window = windows[kind];
          return window === undefined ? { ...job, name: `job ${i}` } : { ...job, name: `job ${i}`, window };
        });
        const plain = starts(named, capacity, daily(9, 17));
        expect(starts(named, capacity, daily(9, 17), new Simulation({ fastPath: false }))).toEqual(plain);
        const sim = new Simulation();
        function* nothing(): Process {}
        for (const { time, rank } of extra) sim.spawn(nothing(), time * HOUR, rank);
        expect(starts(named, capacity, daily(9, 17), sim)).toEqual(plain);
      }),
      { seed: 6, numRuns: 500 },
    );
  });
});
