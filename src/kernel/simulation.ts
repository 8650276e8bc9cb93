import { EventQueue, type EventKey } from './queue.js';
import { BeyondClock, ProcessError, type TraceRecord } from './trace.js';

/**
 * A process: a generator that yields each time it has to be suspended, and is given the reason of an interrupt by
 * that `yield`, or undefined when it was resumed in the ordinary way.
 */
export type Process = Generator<void, void, unknown>;

/** What a simulation needs of a process, for those that are no generators. */
export interface Resumable {
  /** Goes on until it has to be suspended again, or to its end. */
  next(reason?: unknown): { readonly done?: boolean | undefined };
}

/** Anything scheduled that can be called off. */
export interface Cancellable {
  /** Calls it off; nothing happens if it has already come or been called off. */
  cancel(): void;
}

/** An interrupt that has been ordered. */
export type Interrupt = Cancellable;

/** A process inside a simulation. Its fields belong to the simulation; others may read `label` and `ended`. */
export class Task {
  ended = false;
  started = false;
  /** Whether the process has arranged for its next suspension and must now yield. */
  suspended = false;
  /** Grows at each resumption, so that a wake meant for an earlier suspension is known to be out of date. */
  version = 0;

  constructor(
    readonly process: Resumable,
    readonly label: string,
  ) {}

  /** Its turn begins: whatever else was to resume it is out of date. */
  beginTurn(): void {
    this.started = true;
    this.suspended = false;
    this.version += 1;
  }
}

class ScheduledEvent implements EventKey, Cancellable {
  cancelled = false;

  /** `version` is the task's when a wake was scheduled; null marks an interrupt, which holds for any version. */
  constructor(
    readonly time: number,
    readonly rank: number,
    readonly sequence: number,
    readonly task: Task,
    readonly version: number | null,
    readonly reason: unknown,
  ) {}

  cancel(): void {
    this.cancelled = true;
  }

  /** True once the event can no longer do anything, whatever happens before its time. */
  get isVoid(): boolean {
    return this.cancelled || this.task.ended || (this.version !== null && this.version !== this.task.version);
  }
}

/** Settings of a simulation that change its speed, never its results. */
export interface SimulationOptions {
  /** Let `sleepUntil` move the clock at once where nothing else is due; default true. */
  readonly fastPath?: boolean;
}

/**
 * Clock and event queue of a discrete-event simulation. Time is a whole number of microseconds from 0. Events of one
 * time are taken by rank, lower first, then in the order in which they were scheduled.
 */
export class Simulation {
  readonly #queue = new EventQueue<ScheduledEvent>();
  readonly #fastPath: boolean;
  #now = 0;
  #until = 0;
  /** Nothing else is due before this moment; what is due then may have become void. */
  #quietUntil = 0;
  #sequence = 0;
  #spawned = 0;
  #active: Task | undefined;

  /** Told of every start, resumption, interrupt and end, where given. */
  trace?: ((record: TraceRecord) => void) | undefined;

  constructor(options: SimulationOptions = {}) {
    this.#fastPath = options.fastPath ?? true;
  }

  /** Simulated time, whole microseconds. */
  get now(): number {
    return this.#now;
  }

  /** The process that is running now. Throws an Error outside every process. */
  get active(): Task {
    if (this.#active === undefined) throw new Error('No process is running.');
    return this.#active;
  }

  /** Starts a process at time `at` (default now). The label names it in traces and errors. */
  spawn(process: Resumable, at = this.#now, rank = 0, label?: string): Task {
    this.#spawned += 1;
    const task = new Task(process, label ?? `process ${this.#spawned}`);
    this.#schedule(task, at, rank, task.version, undefined);
    return task;
  }

  /**
   * Puts the active process to sleep until time `t`, to be resumed at rank `rank` among the events of that time.
   * Returns true if the caller must now `yield`. Returns false if nothing else is due before (t, rank): the clock has
   * moved already, and the caller goes on; the outcome is the same. Throws RangeError if `t` has passed or is not whole,
   * BeyondClock if the clock does not go so far.
   */
  sleepUntil(t: number, rank: number): boolean {
    const task = this.#active;
    if (
      task?.suspended === false &&
      this.#fastPath &&
      (t < this.#quietUntil || (t < this.#until && this.isNext(t, rank)))
    ) {
      // Most of a campaign passes through here: nothing is called in vain.
      if (!(t >= this.#now) || Math.floor(t) !== t || t > Number.MAX_SAFE_INTEGER) this.#refuse(t);
      this.#now = t;
      task.version += 1;
      if (this.trace !== undefined) this.#tell(task, 'resume', undefined);
      return false;
    }
    const sleeper = this.#suspending();
    this.#schedule(sleeper, t, rank, sleeper.version, undefined);
    return true;
  }

  /** Up to this moment, not including it, nothing else is due, and `passTo` may move the clock. */
  get quietUntil(): number {
    return this.#fastPath ? this.#quietUntil : 0;
  }

  /** Moves the clock on, which the active process has found to be quiet: as `sleepUntil`, untold. */
  passTo(t: number): void {
    this.active.version += 1;
    this.#now = t;
  }

  /** Suspends the active process until someone wakes or interrupts it; the caller must now `yield`. */
  wait(): void {
    this.#suspending();
  }

  /**
   * Resumes the suspended (or now active, soon suspended) process `task` at time `at`. Of several wakes and the end of
   * a sleep the first to come counts; the others lapse, also when an interrupt comes before them.
   */
  wake(task: Task, at: number, rank: number): Cancellable {
    return this.#schedule(task, at, rank, task.version, undefined);
  }

  /**
   * Interrupts `task` at time `at`, whatever it then sleeps or waits for: its `yield` gives `reason`, which should not
   * be undefined. Has no effect if by then the task has ended, has not started, or the interrupt was cancelled.
   */
  interruptAt(task: Task, at: number, rank: number, reason: unknown): Interrupt {
    return this.#schedule(task, at, rank, null, reason);
  }

  /** Whether an event scheduled now for (t, rank) would be the next to come. */
  isNext(t: number, rank: number): boolean {
    const head = this.#queue.isEmpty ? undefined : this.#head();
    return head === undefined || head.time > t || (head.time === t && head.rank > rank);
  }

  /**
   * Runs until nothing is scheduled, or up to time `until`: events at `until` itself are not run (a later `run` takes
   * them up), and the clock is left standing there. Throws ProcessError for an error inside a process.
   */
  run(until = Infinity): void {
    if (this.#active !== undefined) throw new Error('The simulation is running already.');
    this.#until = until;
    for (let event = this.#head(); event !== undefined && event.time < until; event = this.#head()) {
      this.#queue.pop();
      if (event.version !== null || event.task.started) this.#resume(event);
    }
    if (until !== Infinity) this.#now = Math.max(this.#now, until);
  }

  /** The first event that may still matter. Void ones are dropped here, so they never move the clock. */
  #head(): ScheduledEvent | undefined {
    let head = this.#queue.peek();
    while (head?.isVoid === true) {
      this.#queue.pop();
      head = this.#queue.peek();
    }
    return head;
  }

  #resume(event: ScheduledEvent): void {
    const { task, reason } = event;
    this.#now = event.time;
    this.#active = task;
    this.#quietUntil = Math.min(this.#until, this.#queue.peek()?.time ?? Infinity);
    this.#tell(task, !task.started ? 'start' : event.version === null ? 'interrupt' : 'resume', reason);
    task.beginTurn();
    try {
      task.ended = task.process.next(reason).done === true;
      if (!task.ended && !task.suspended) throw new Error('The process yielded without a sleep or a wait.');
    } catch (error) {
      task.ended = true;
      throw new ProcessError(task.label, this.#now, error);
    } finally {
      this.#active = undefined;
    }
    if (task.ended) this.#tell(task, 'end', undefined);
  }

  #suspending(): Task {
    const task = this.active;
    if (task.suspended) throw new Error('The process must yield after a sleep or a wait.');
    task.suspended = true;
    return task;
  }

  #schedule(task: Task, time: number, rank: number, version: number | null, reason: unknown): ScheduledEvent {
    this.#checkTime(time);
    this.#sequence += 1;
    this.#quietUntil = Math.min(this.#quietUntil, time);
    const event = new ScheduledEvent(time, rank, this.#sequence, task, version, reason);
    this.#queue.push(event);
    return event;
  }

  #checkTime(time: number): void {
    if (!Number.isSafeInteger(time) || time < this.#now) this.#refuse(time);
  }

  #refuse(time: number): never {
    if (time > Number.MAX_SAFE_INTEGER && time !== Infinity) throw new BeyondClock();
    throw new RangeError(
      `Cannot schedule for ${time} at ${this.#now}: wanted a whole number of microseconds not before now.`,
    );
  }

  #tell(task: Task, kind: TraceRecord['kind'], reason: unknown): void {
    if (this.trace !== undefined) this.trace({ time: this.#now, label: task.label, kind, reason });
  }
}
