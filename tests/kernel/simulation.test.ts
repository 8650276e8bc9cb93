import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Simulation, type Process, type Task } from '../../src/kernel/simulation.js';
import { BeyondClock, ProcessError, type TraceRecord } from '../../src/kernel/trace.js';

/** Sleeps once and writes down when it resumes and what its `yield` gave. */
function* sleeper(sim: Simulation, log: unknown[], name: string, until: number, rank = 0): Process {
  const reason = sim.sleepUntil(until, rank) ? yield : undefined;
  log.push([name, sim.now, reason]);
}

function* waiter(sim: Simulation, log: unknown[], name: string): Process {
  sim.wait();
  const reason = yield;
  log.push([name, sim.now, reason]);
}

function* acts(action: () => void): Process {
  action();
}

describe('a simulation', () => {
  it('takes events of one time by rank, and those of one rank in the order of scheduling', () => {
    const sim = new Simulation();
    const log: unknown[] = [];
    sim.spawn(sleeper(sim, log, 'late rank', 10, 5));
    sim.spawn(sleeper(sim, log, 'first of rank 1', 10, 1));
    sim.spawn(sleeper(sim, log, 'second of rank 1', 10, 1));
    sim.spawn(sleeper(sim, log, 'earlier time', 9, 9));
    sim.run();
    expect(log).toEqual([
      ['earlier time', 9, undefined],
      ['first of rank 1', 10, undefined],
      ['second of rank 1', 10, undefined],
      ['late rank', 10, undefined],
    ]);
  });

  it('starts a process at the time asked for, and knows which one is active', () => {
    const sim = new Simulation();
    const seen: unknown[] = [];
    const task = sim.spawn(
      acts(() => seen.push(sim.now, sim.active.label)),
      7,
      0,
      'probe',
    );
    expect(() => sim.active).toThrow('No process');
    sim.run();
    expect(seen).toEqual([7, 'probe']);
    expect(task.ended).toBe(true);
  });

  it('refuses what lies further than its clock goes, in words of its own', () => {
    const far = Number.MAX_SAFE_INTEGER;
    for (const sleeps of [true, false]) {
      const sim = new Simulation();
      const refusals: unknown[] = [];
      const tried = acts(() => {
        // The last moment of the clock is still one of its own.
        expect(sim.sleepUntil(far, 0)).toBe(false);
        try {
          if (sleeps) sim.sleepUntil(far + 1, 0);
          else sim.wake(sim.active, far + 1, 0);
        } catch (refusal) {
          refusals.push(refusal);
        }
      });
      sim.spawn(tried);
      sim.run();
      expect(refusals).toEqual([expect.any(BeyondClock)]);
    }
  });

  it('runs up to, not including, the time asked for, and goes on from there', () => {
    const sim = new Simulation();
    const log: unknown[] = [];
    sim.spawn(sleeper(sim, log, 'a', 10));
    sim.run(10);
    expect([sim.now, log]).toEqual([10, []]);
    sim.run();
    expect(log).toEqual([['a', 10, undefined]]);
  });

  it('leaves the clock standing at the time asked for, also with nothing to do, and never turns it back', () => {
    const sim = new Simulation();
    sim.run(10);
    expect(sim.now).toBe(10);
    sim.run(4);
    expect(sim.now).toBe(10);
    const log: unknown[] = [];
    sim.spawn(sleeper(sim, log, 'a', 15));
    sim.run(12);
    expect([sim.now, log]).toEqual([12, []]);
    sim.run(20);
    expect([sim.now, log]).toEqual([20, [['a', 15, undefined]]]);
  });

  it('numbers processes that are given no label, by the order in which they were spawned', () => {
    const sim = new Simulation();
    const labels = [undefined, 'probe', undefined].map(
      (label) =>
        sim.spawn(
          acts(() => undefined),
          0,
          0,
          label,
        ).label,
    );
    expect(labels).toEqual(['process 1', 'probe', 'process 3']);
  });

  it('moves the clock at once when nothing is due before, and not when something is', () => {
    const sim = new Simulation();
    const moved: boolean[] = [];
    function* process(): Process {
      for (const [t, rank] of [
        [5, 0],
        [10, 0],
        [10, 2],
        [11, 0],
      ]) {
        const mustYield = sim.sleepUntil(t, rank);
        moved.push(!mustYield);
        if (mustYield) yield;
      }
    }
    sim.spawn(process());
    sim.spawn(
      acts(() => undefined),
      10,
      1,
    );
    sim.run();
    expect(moved).toEqual([true, true, false, true]);
  });

  it('resumes a waiting process when it is woken, at the first of several wakes', () => {
    const sim = new Simulation();
    const log: unknown[] = [];
    function* twice(): Process {
      yield* waiter(sim, log, 'first');
      yield* sleeper(sim, log, 'second', 100);
    }
    const task = sim.spawn(twice());
    sim.spawn(
      acts(() => {
        sim.wake(task, 9, 0);
        sim.wake(task, 6, 0);
      }),
      5,
    );
    sim.run();
    expect(log).toEqual([
      ['first', 6, undefined],
      ['second', 100, undefined],
    ]);
  });

  it('forgets a wake that was cancelled', () => {
    const sim = new Simulation();
    const log: unknown[] = [];
    const task = sim.spawn(waiter(sim, log, 'a'));
    sim.spawn(
      acts(() => {
        sim.wake(task, 6, 0).cancel();
        sim.wake(task, 8, 0);
      }),
      5,
    );
    sim.run();
    expect(log).toEqual([['a', 8, undefined]]);
  });

  it('names process and time when an error is thrown inside one, and keeps the cause', () => {
    const sim = new Simulation();
    const cause = new Error('the stage is stuck');
    function* fails(): Process {
      if (sim.sleepUntil(42, 0)) yield;
      throw cause;
    }
    sim.spawn(fails(), 0, 0, 'instrument 1');
    let thrown: unknown;
    try {
      sim.run();
    } catch (error) {
      thrown = error;
    }
    expect(thrown).toBeInstanceOf(ProcessError);
    expect(thrown).toMatchObject({ label: 'instrument 1', time: 42, cause });
    expect(String(thrown)).toMatch(/instrument 1.* 42 .*the stage is stuck/);
  });

  it('says what was thrown also where that is no error', () => {
    expect(new ProcessError('instrument 2', 7, 'stuck').message).toBe('in instrument 2 at simulated time 7 µs: stuck');
    expect(new ProcessError('instrument 2', 7, 'stuck').name).toBe('ProcessError');
  });

  it('ends a process that failed, and can be run on', () => {
    const sim = new Simulation();
    const log: unknown[] = [];
    const failed = sim.spawn(
      acts(() => {
        throw new Error('stuck');
      }),
    );
    sim.spawn(sleeper(sim, log, 'other', 5));
    expect(() => {
      sim.run();
    }).toThrow('stuck');
    expect(failed.ended).toBe(true);
    sim.run();
    expect(log).toEqual([['other', 5, undefined]]);
  });

  it('refuses times that have passed or are not whole microseconds', () => {
    for (const t of [9, 10.5, NaN, Infinity]) {
      const sim = new Simulation();
      sim.spawn(sleeper(sim, [], 'a', t), 10);
      expect(() => {
        sim.run();
      }).toThrow(/whole number of microseconds/);
    }
  });

  it('refuses a yield without a sleep or a wait, and a second sleep without a yield', () => {
    function* idle(): Process {
      yield;
    }
    const sim = new Simulation();
    sim.spawn(idle());
    expect(() => {
      sim.run();
    }).toThrow(/without a sleep or a wait/);
    sim.spawn(
      acts(() => {
        sim.wait();
        sim.wait();
      }),
    );
    expect(() => {
      sim.run();
    }).toThrow(/must yield/);
  });

  it('cannot be run from inside itself', () => {
    const sim = new Simulation();
    sim.spawn(
      acts(() => {
        sim.run();
      }),
    );
    expect(() => {
      sim.run();
    }).toThrow(/running already/);
  });

  it('tells its trace of every start, resumption, interrupt and end', () => {
    const sim = new Simulation();
    const records: TraceRecord[] = [];
    sim.trace = (record) => records.push(record);
    const task = sim.spawn(waiter(sim, [], 'a'), 1, 0, 'a');
    sim.interruptAt(task, 3, 0, 'broken');
    sim.spawn(sleeper(sim, [], 'b', 2), 0, 0, 'b');
    sim.run();
    expect(records.map(({ time, label, kind, reason }) => [time, label, kind, reason])).toEqual([
      [0, 'b', 'start', undefined],
      [1, 'a', 'start', undefined],
      [2, 'b', 'resume', undefined],
      [2, 'b', 'end', undefined],
      [3, 'a', 'interrupt', 'broken'],
      [3, 'a', 'end', undefined],
    ]);
  });
});

describe('an interrupt', () => {
  it('ends a sleep, whose own end then never comes', () => {
    const sim = new Simulation();
    const log: unknown[] = [];
    function* process(): Process {
      yield* sleeper(sim, log, 'scan', 20);
      yield* sleeper(sim, log, 'next', 50);
    }
    const task = sim.spawn(process());
    sim.interruptAt(task, 12, 0, 'broken');
    sim.run();
    expect(log).toEqual([
      ['scan', 12, 'broken'],
      ['next', 50, undefined],
    ]);
  });

  it('ends a wait, and a wake left over from before never resumes the process later', () => {
    const sim = new Simulation();
    const log: unknown[] = [];
    function* process(): Process {
      yield* waiter(sim, log, 'first');
      yield* waiter(sim, log, 'second');
    }
    const task = sim.spawn(process());
    sim.spawn(
      acts(() => {
        sim.wake(task, 15, 0);
        sim.interruptAt(task, 12, 0, 'broken');
      }),
      10,
    );
    sim.spawn(
      acts(() => sim.wake(task, 30, 0)),
      20,
    );
    sim.run();
    expect(log).toEqual([
      ['first', 12, 'broken'],
      ['second', 30, undefined],
    ]);
  });

  it('in the instant in which a sleep ends comes before it or after it by rank', () => {
    for (const [interruptRank, expected] of [
      [1, ['scan', 20, 'broken']],
      [3, ['scan', 20, undefined]],
    ] as const) {
      const sim = new Simulation();
      const log: unknown[] = [];
      const task = sim.spawn(sleeper(sim, log, 'scan', 20, 2));
      sim.interruptAt(task, 20, interruptRank, 'broken');
      sim.run();
      expect(log).toEqual([expected]);
    }
  });

  it('that is cancelled has no effect and does not move the clock', () => {
    const sim = new Simulation();
    const log: unknown[] = [];
    const task = sim.spawn(sleeper(sim, log, 'scan', 20));
    const interrupt = sim.interruptAt(task, 12, 0, 'broken');
    sim.spawn(
      acts(() => {
        interrupt.cancel();
      }),
      11,
    );
    sim.interruptAt(task, 90, 0, 'much later').cancel();
    sim.run();
    expect(log).toEqual([['scan', 20, undefined]]);
    expect(sim.now).toBe(20);
  });

  it('after the end of its process, or before its start, has no effect', () => {
    const sim = new Simulation();
    const log: unknown[] = [];
    const ended = sim.spawn(sleeper(sim, log, 'ended', 5));
    sim.interruptAt(ended, 30, 0, 'late');
    const unborn = sim.spawn(sleeper(sim, log, 'unborn', 9), 8);
    sim.interruptAt(unborn, 2, 0, 'early');
    sim.run();
    expect(log).toEqual([
      ['ended', 5, undefined],
      ['unborn', 9, undefined],
    ]);
    expect(sim.now).toBe(9);
  });

  it('can be ordered by a process for itself before it sleeps', () => {
    const sim = new Simulation();
    const log: unknown[] = [];
    function* scan(): Process {
      sim.interruptAt(sim.active, 12, 0, 'broken');
      yield* sleeper(sim, log, 'scan', 20);
    }
    sim.spawn(scan());
    sim.run();
    expect(log).toEqual([['scan', 12, 'broken']]);
  });
});

describe('the outcome of a run', () => {
  /** One thing that a process does: sleep, wake or interrupt another one, or wait. */
  const step = fc.record({
    act: fc.constantFrom('sleep', 'sleep', 'wait', 'wake', 'interrupt', 'cancel'),
    delay: fc.nat(4),
    rank: fc.nat(2),
    other: fc.nat(3),
  });
  const scripts = fc.array(fc.array(step, { maxLength: 8 }), { minLength: 1, maxLength: 4 });
  type Scripts = typeof scripts extends fc.Arbitrary<infer T> ? T : never;

  function play(program: Scripts, fastPath: boolean, noOps: readonly { time: number; rank: number }[]): unknown[] {
    const sim = new Simulation({ fastPath });
    const log: unknown[] = [];
    const tasks: Task[] = [];
    function* process(name: number): Process {
      let cancel = () => {};
      for (const { act, delay, rank, other } of program[name]) {
        const task = tasks[other % tasks.length];
        const time = sim.now + delay;
        let reason: unknown;
        if (act === 'sleep' && sim.sleepUntil(time, rank)) reason = yield;
        if (act === 'wait') {
          sim.wait();
          reason = yield;
        }
        if (act === 'cancel') cancel();
        // An event ordered for a process that has not begun could be its start, so only begun ones are disturbed.
        if (task.started && act === 'wake') sim.wake(task, time, rank);
        if (task.started && act === 'interrupt') {
          const interrupt = sim.interruptAt(task, time, rank, name);
          cancel = () => {
            interrupt.cancel();
          };
        }
        log.push([name, act, sim.now, reason]);
      }
    }
    program.forEach((_, name) => tasks.push(sim.spawn(process(name), name % 2, 0, `p${name}`)));
    for (const { time, rank } of noOps)
      sim.spawn(
        acts(() => undefined),
        time,
        rank,
        'no-op',
      );
    sim.trace = ({ time, label, kind, reason }) => {
      if (label !== 'no-op') log.push([time, label, kind, reason]);
    };
    sim.run();
    return log;
  }

  it('is the same with and without the fast path of sleeping, to the last trace record', () => {
    fc.assert(
      fc.property(scripts, (program) => {
        expect(play(program, true, [])).toEqual(play(program, false, []));
      }),
      { seed: 4, numRuns: 1000 },
    );
  });

  it('does not change when events that do nothing are added', () => {
    const noOps = fc.array(fc.record({ time: fc.nat(20), rank: fc.nat(3) }), { minLength: 1, maxLength: 20 });
    fc.assert(
      fc.property(scripts, noOps, (program, extra) => {
        expect(play(program, true, extra)).toEqual(play(program, true, []));
      }),
      { seed: 5, numRuns: 1000 },
    );
  });
});

describe('a time that has passed or is not whole', () => {
  it.each([4, 5.5, NaN, Infinity])('is refused for whatever is to come at %s, when it is 5', (time) => {
    const sim = new Simulation();
    const log: unknown[] = [];
    const task = sim.spawn(sleeper(sim, log, 'a', 10));
    sim.run(5);
    const wanted = /wanted a whole number of microseconds not before now/;
    expect(() => sim.spawn(sleeper(sim, log, 'b', 20), time)).toThrow(wanted);
    expect(() => sim.wake(task, time, 0)).toThrow(wanted);
    expect(() => sim.interruptAt(task, time, 0, 'reason')).toThrow(wanted);
    sim.run();
    expect(log).toEqual([['a', 10, undefined]]);
  });
});
