/** Length of a week in microseconds. */
export const WEEK = 7 * 24 * 3_600_000_000;

/** A stretch of the week from `from` up to, not including, `to`: microseconds since Monday 00:00. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/**
 * Opening hours that recur every week. Times are whole microseconds >= 0 (but for what `beforeOpen` gives); time 0 is a
 * Monday 00:00. An open stretch is half-open: it takes in its first instant, not its last. A stretch is also called a session.
 *
 * Stretches are numbered through all weeks: stretch `k` is the `k mod n`-th of week `floor(k / n)`. The only one that
 * starts before time 0, and may last into it, is number -1.
 */
export class WeeklyHours {
  /** Open at all times. */
  static readonly always = new WeeklyHours([{ from: 0, to: WEEK }]);

  /** Whether there is no closing at all. */
  readonly isAlways: boolean;
  /** The longest open stretch in microseconds; Infinity if always open, 0 if never. */
  readonly longest: number;

  readonly #spans: readonly Span[];
  /** Open time of the week before each stretch, and, at the end, of the whole week. */
  readonly #before: readonly number[];
  /** The stretch that was last looked for, and from when until when it is the latest: the next question is mostly about it. */
  #found = 0;
  #foundFrom = Infinity;
  #foundUntil = Infinity;

  /**
   * @param spans stretches in any order; one that passes the end of the week goes on at its beginning; those that touch
   * or overlap are joined, also across the week's end. None at all means never open.
   * Throws RangeError unless 0 <= from < to, whole numbers.
   */
  constructor(spans: readonly Span[]) {
    this.#spans = joinAcrossWeekEnd(joinTouching(spans.flatMap(withinOneWeek)));
    const lengths = this.#spans.map((span) => span.to - span.from);
    const before = [0];
    let sum = 0;
    for (const length of lengths) before.push((sum += length));
    this.#before = before;
    this.isAlways = sum === WEEK;
    this.longest = this.isAlways ? Infinity : Math.max(0, ...lengths);
  }

  /** Whether `t` lies in an open stretch. */
  isOpen(t: number): boolean {
    return this.isAlways || (this.#spans.length > 0 && t < this.#end(this.#latest(t)));
  }

  /** The first open instant at or after `t`; Infinity if never open. */
  opening(t: number): number {
    if (this.isAlways) return t;
    return this.#spans.length === 0 ? Infinity : Math.max(t, this.#start(this.#current(t)));
  }

  /** The end of the open stretch that contains `t`; Infinity if always open. Throws RangeError if `t` is not open. */
  closing(t: number): number {
    if (this.isAlways) return Infinity;
    if (!this.isOpen(t)) throw new RangeError(`Closed at ${t}.`);
    return this.#end(this.#latest(t));
  }

  /** The first open instant at or after `t` with at least `room` microseconds left until closing; Infinity if never. */
  withRoom(t: number, room: number): number {
    if (this.isAlways) return t;
    if (this.#spans.length === 0 || room > this.longest) return Infinity;
    let k = this.#current(t);
    while (this.#end(k) - Math.max(t, this.#start(k)) < room) k += 1;
    return Math.max(t, this.#start(k));
  }

  /** Open microseconds in [a, b); 0 if b <= a. Its cost does not grow with the number of weeks. */
  openBetween(a: number, b: number): number {
    if (b <= a || this.#spans.length === 0) return 0;
    return this.isAlways ? b - a : this.#openUpTo(b) - this.#openUpTo(a);
  }

  /** The end of the n-th session from `start` on (n >= 1; one under way at `start` is the first); Infinity if none ends. */
  sessionEnd(start: number, n: number): number {
    if (this.isAlways || this.#spans.length === 0) return Infinity;
    return this.#end(this.#current(start) + n - 1);
  }

  /** The first instant at which `openBetween(start, instant)` reaches `budget`; Infinity if it never does. */
  afterOpen(start: number, budget: number): number {
    if (this.isAlways || budget <= 0) return start + Math.max(0, budget);
    const count = this.#spans.length;
    if (count === 0) return Infinity;
    const target = this.#openUpTo(start) + budget;
    const week = Math.floor((target - 1) / this.#openBefore(count));
    let k = week * count;
    while (k + 1 < (week + 1) * count && this.#openBefore(k + 1) < target) k += 1;
    return this.#start(k) + target - this.#openBefore(k);
  }

  /**
   * The last instant at which `openBetween(instant, end)` still reaches `budget`: an opening rather than the closing before
   * it. It may lie in the weeks before time 0, where the same hours hold, and is then negative; -Infinity if never open.
   */
  beforeOpen(end: number, budget: number): number {
    if (this.isAlways || budget <= 0) return end - Math.max(0, budget);
    const count = this.#spans.length;
    if (count === 0) return -Infinity;
    const target = this.#openUpTo(end) - budget;
    const week = Math.floor(target / this.#openBefore(count));
    let k = week * count;
    while (k + 1 < (week + 1) * count && this.#openBefore(k + 1) <= target) k += 1;
    return this.#start(k) + target - this.#openBefore(k);
  }

  /** Number of the last stretch that starts at or before `t`. */
  #latest(t: number): number {
    if (t < this.#foundFrom || t >= this.#foundUntil) {
      this.#found = this.#search(t);
      this.#foundFrom = this.#start(this.#found);
      this.#foundUntil = this.#start(this.#found + 1);
    }
    return this.#found;
  }

  #search(t: number): number {
    const week = Math.floor(t / WEEK);
    const moment = t - week * WEEK;
    let low = 0;
    let high = this.#spans.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.#spans[middle].from <= moment) low = middle + 1;
      else high = middle;
    }
    return week * this.#spans.length + low - 1;
  }

  /** Number of the stretch that contains `t`, else of the next one. */
  #current(t: number): number {
    const latest = this.#latest(t);
    return t < this.#end(latest) ? latest : latest + 1;
  }

  #start(k: number): number {
    return this.#span(k).from + this.#week(k) * WEEK;
  }

  #end(k: number): number {
    return this.#span(k).to + this.#week(k) * WEEK;
  }

  /** Open time before stretch `k`, counted from the first stretch of week 0; negative before that. */
  #openBefore(k: number): number {
    const count = this.#spans.length;
    const week = this.#week(k);
    return week * this.#before[count] + this.#before[k - week * count];
  }

  #openUpTo(t: number): number {
    const k = this.#latest(t);
    return this.#openBefore(k) + Math.min(t, this.#end(k)) - this.#start(k);
  }

  #week(k: number): number {
    return Math.floor(k / this.#spans.length);
  }

  #span(k: number): Span {
    return this.#spans[k - this.#week(k) * this.#spans.length];
  }
}

/**
 * The first instant at or after `t` that is open in both, with at least `room` microseconds left until `other` closes;
 * Infinity if never.
 */
export function firstInBoth(one: WeeklyHours, other: WeeklyHours, t: number, room = 0): number {
  let first = one.opening(t);
  // Both calendars repeat weekly: what does not come within a week of the first opening never comes.
  const horizon = first + WEEK;
  while (first < horizon) {
    const allowed = other.withRoom(first, room);
    if (allowed === first || allowed === Infinity) return allowed;
    first = one.opening(allowed);
    if (first === allowed) return first;
  }
  return Infinity;
}

function withinOneWeek({ from, to }: Span): Span[] {
  if (!Number.isSafeInteger(from) || !Number.isSafeInteger(to) || from < 0 || to <= from) {
    throw new RangeError(`Hours from ${from} to ${to}: wanted whole microseconds, 0 <= from < to.`);
  }
  if (to - from >= WEEK) return [{ from: 0, to: WEEK }];
  const start = from - Math.floor(from / WEEK) * WEEK;
  const end = start + to - from;
  if (end <= WEEK) return [{ from: start, to: end }];
  return [
    { from: start, to: WEEK },
    { from: 0, to: end - WEEK },
  ];
}

function joinTouching(spans: Span[]): Span[] {
  const joined: Span[] = [];
  for (const span of spans.sort((a, b) => a.from - b.from)) {
    const last = joined.at(-1);
    if (last === undefined || span.from > last.to) joined.push(span);
    else joined[joined.length - 1] = { from: last.from, to: Math.max(last.to, span.to) };
  }
  return joined;
}

/** A stretch that ends with the week and one that begins it are one stretch, which then passes the week's end. */
function joinAcrossWeekEnd(spans: Span[]): Span[] {
  const first = spans.at(0);
  const last = spans.at(-1);
  if (first === undefined || last === undefined || first === last) return spans;
  if (first.from !== 0 || last.to !== WEEK) return spans;
  return [...spans.slice(1, -1), { from: last.from, to: WEEK + first.to }];
}
