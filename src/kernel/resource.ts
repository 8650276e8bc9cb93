import { firstInBoth, type WeeklyHours } from './hours.js';
import type { Cancellable, Process, Simulation, Task } from './simulation.js';

/** Further hours within which a request must be granted, with at least `room` microseconds left until they close. */
export interface Window {
  readonly hours: WeeklyHours;
  readonly room: number;
}

interface Request {
  readonly task: Task;
  readonly units: 0 | 1;
  readonly number: number;
  readonly arrival: number;
  readonly window: Window | undefined;
}

/**
 * People or things of which `capacity` are there within weekly hours. Who holds one keeps it until `release`, also past
 * the hours. Requests are decided at rank `startRank` of an instant, so that all that arrive in one instant are
 * compared: served by arrival, then by `number`; one that cannot start now does not block those behind it.
 */
export class Resource {
  readonly #sim: Simulation;
  readonly #capacity: number;
  readonly #hours: WeeklyHours;
  readonly #openingRank: number;
  readonly #startRank: number;
  readonly #keeper: Task;
  /** In order of service. */
  #waiting: Request[] = [];
  /** Granted in the last round, whose processes may not have been resumed yet. */
  #granted: Request[] = [];
  #inUse = 0;
  #next: { readonly time: number; readonly rank: number; readonly wake: Cancellable } | undefined;

  /**
   * @param openingRank rank of the event by which an opening of hours is noticed while somebody waits for it
   * @param startRank rank at which requests are decided and those granted are resumed
   */
  constructor(sim: Simulation, capacity: number, hours: WeeklyHours, openingRank: number, startRank: number) {
    this.#sim = sim;
    this.#capacity = capacity;
    this.#hours = hours;
    this.#openingRank = openingRank;
    this.#startRank = startRank;
    this.#keeper = sim.spawn(this.#keep(), sim.now, startRank, 'resource');
  }

  /** Units taken now. */
  get inUse(): number {
    return this.#inUse;
  }

  /**
   * Asks for one unit, or with `units` 0 only for the hours to be open, for the active process. Granted only inside the
   * resource's hours and, where given, inside the window. Returns false if granted at once. Returns true if the caller
   * must `yield`; it is resumed when granted (never, if the hours and the window never meet).
   * If an interrupt comes instead, it must call `withdraw`.
   */
  request(units: 0 | 1, number: number, window?: Window): boolean {
    const { active: task, now } = this.#sim;
    const request: Request = { task, units, number, arrival: now, window };
    if (this.#sim.isNext(now, this.#startRank) && this.#canStart(request)) {
      this.#inUse += units;
      return false;
    }
    const behind = this.#waiting.findIndex((other) => other.arrival === now && other.number > number);
    this.#waiting.splice(behind < 0 ? this.#waiting.length : behind, 0, request);
    this.#attend(now, this.#startRank);
    this.#sim.wait();
    return true;
  }

  /** Gives one unit back. Throws an Error if none is taken. */
  release(): void {
    if (this.#inUse === 0) throw new Error('Release of a resource that is not in use.');
    this.#inUse -= 1;
    if (this.#waiting.length > 0) this.#attend(this.#sim.now, this.#startRank);
  }

  /** Takes back the active process's request after an interrupt of its wait, also if granted in this same instant. */
  withdraw(): void {
    const isOwn = (request: Request) => request.task === this.#sim.active;
    if (this.#waiting.some(isOwn)) this.#waiting = this.#waiting.filter((request) => !isOwn(request));
    else if (this.#granted.some((request) => isOwn(request) && request.units === 1)) this.release();
    if (this.#waiting.length === 0) this.#forget();
  }

  /** Decides whenever it is woken, and has itself woken when the calendar next allows something. */
  *#keep(): Process {
    for (;;) {
      if (this.#sim.sleepUntil(this.#sim.now, this.#startRank)) yield;
      this.#next = undefined;
      this.#serve();
      const time = this.#waiting.reduce((least, request) => Math.min(least, this.#calendarInstant(request)), Infinity);
      if (time < Infinity) this.#attend(time, this.#openingRank);
      this.#sim.wait();
      yield;
    }
  }

  #serve(): void {
    const waiting = this.#waiting;
    this.#granted = [];
    this.#waiting = [];
    for (const request of waiting) {
      if (this.#canStart(request)) {
        this.#inUse += request.units;
        this.#granted.push(request);
        this.#sim.wake(request.task, this.#sim.now, this.#startRank);
      } else {
        this.#waiting.push(request);
      }
    }
  }

  #hasUnits(request: Request): boolean {
    return this.#inUse + request.units <= this.#capacity;
  }

  #canStart(request: Request): boolean {
    return this.#hasUnits(request) && this.#allowedFrom(request) === this.#sim.now;
  }

  /** When the calendar will next allow a waiting request; Infinity if it waits for a unit, whose release is told anyway. */
  #calendarInstant(request: Request): number {
    return this.#hasUnits(request) ? this.#allowedFrom(request) : Infinity;
  }

  /** First instant from now on at which the hours and the request's window allow it; Infinity if never. */
  #allowedFrom({ window }: Request): number {
    const { now } = this.#sim;
    return window === undefined ? this.#hours.opening(now) : firstInBoth(this.#hours, window.hours, now, window.room);
  }

  /** Has the keeper look at the requests at (time, rank), unless it does so before. */
  #attend(time: number, rank: number): void {
    const next = this.#next;
    if (next !== undefined && (next.time < time || (next.time === time && next.rank <= rank))) return;
    this.#forget();
    this.#next = { time, rank, wake: this.#sim.wake(this.#keeper, time, rank) };
  }

  #forget(): void {
    this.#next?.wake.cancel();
    this.#next = undefined;
  }
}
