import { recordOf, type StudyOptions } from '../../analysis/about.js';
import { LEVEL } from '../../analysis/differences.js';
import { chanceOf, shareOf } from '../../analysis/estimate.js';
import { clockText } from '../../analysis/timeline.js';
import { timelineOf } from '../../analysis/trace.js';
import { heldAtCentre } from '../../analysis/vary/held.js';
import { ACTIVITIES } from '../../campaign/activities.js';
import { LuckTable } from '../../chance/luck.js';
import { type Runnable, runnable } from '../../execution/replicate.js';
import { microseconds, SECOND } from '../../kernel/clock.js';
import type { LoadedScenario } from '../../scenario/load.js';
import { countOf } from '../../statistics/numbers.js';
import { OCCUPANCY_FORMAT, type Occupancy, type OccupiedStrategy, type Session, type Use } from './results.js';
import { answerOf } from './words.js';
import { numberText } from '../../wording/numbers.js';

export interface OccupancyOptions extends StudyOptions {
  readonly replications: number;
}

/** What is beyond stays unsaid, but for its number. */
export const MOST_SESSIONS = 20;
const DAY = 86_400 * SECOND;
const USES: readonly Use[] = [...ACTIVITIES, 'no longer needed'];
const UNUSED = USES.length - 1;

/** What the booked hours of each session go to. */
export function occupancy(loaded: LoadedScenario, options: OccupancyOptions): Occupancy {
  const record = recordOf(OCCUPANCY_FORMAT, loaded, options);
  const { replications } = options;
  const strategies = runnable(loaded.strategies);
  const table = new LuckTable(record.seed);
  const found = strategies.map((strategy) => new Occupied(strategy, record.scenario.instruments, replications));
  for (let replication = 1; replication <= replications; replication += 1) {
    for (const each of found) each.add(table, replication);
    options.onProgress?.({ phase: 'replications', done: replication, of: replications });
  }
  const occupied = found.map((each) => each.summary());
  return {
    ...record,
    replications,
    stopping: `${numberText(replications)} replications were asked for`,
    level: LEVEL,
    strategies: occupied,
    answer: answerOf(occupied, LEVEL),
    warnings: [...(options.warnings ?? []), ...heldAtCentre(loaded), ...found.flatMap((each) => each.warning())],
  };
}

/** One strategy's sessions, replication by replication. Times in microseconds. */
class Occupied {
  /** The end of each session, and the start before them. */
  private readonly ends: number[];
  /** By session and use, a share a replication. */
  private readonly shares: Float64Array[][] = [];
  private longest = 0;
  private count = 0;

  constructor(
    private readonly strategy: Runnable,
    private readonly instruments: number,
    private readonly replications: number,
  ) {
    this.ends = [strategy.model.start];
  }

  add(table: LuckTable, replication: number): void {
    const { bookings, start } = this.strategy.model;
    const at = (seconds: number) => start + microseconds(seconds);
    let last = 0;
    for (const segment of timelineOf(this.strategy, table, replication).segments) {
      const use = ACTIVITIES.indexOf(segment.activity);
      const [from, to] = [at(segment.start), at(segment.end)];
      for (let session = this.sessionOf(from); this.endOf(session - 1) < to; session += 1) {
        const time = bookings.openBetween(Math.max(from, this.endOf(session - 1)), Math.min(to, this.endOf(session)));
        if (time === 0) continue;
        last = Math.max(last, session);
        if (session <= MOST_SESSIONS) this.sharesIn(session)[use][this.count] += time / this.bookedIn(session);
      }
    }
    this.longest = Math.max(this.longest, last);
    this.count += 1;
  }

  summary(): OccupiedStrategy {
    const { name, model } = this.strategy;
    return { name, workflow: model.workflow, sessions: this.shares.map((_, place) => this.session(place + 1)) };
  }

  warning(): readonly string[] {
    return this.longest <= MOST_SESSIONS
      ? []
      : [`campaigns of ${this.strategy.name} take up to ${this.longest} sessions; the first ${MOST_SESSIONS} are told`];
  }

  private session(session: number): Session {
    const shares = this.shares[session - 1];
    const used = Float64Array.from({ length: this.count }, (_, i) => shares.reduce((sum, of) => sum + of[i], 0));
    shares[UNUSED] = used.map((share) => Math.max(0, 1 - share));
    return {
      session,
      time: (this.endOf(session) - this.strategy.model.start) / SECOND,
      until: clockText(this.endOf(session)).replace(/:00$/u, ''),
      booked: this.bookedIn(session) / SECOND,
      needed: chanceOf(
        countOf(used, (share) => share > 0),
        this.count,
      ),
      uses: USES.flatMap((use, place) =>
        shares[place].some((share) => share > 0) ? [{ use, ...shareOf(shares[place]) }] : [],
      ),
    };
  }

  /** The end of a session, which is the start for number 0. */
  private endOf(session: number): number {
    const { bookings, start } = this.strategy.model;
    for (let next = this.ends.length; next <= session; next += 1)
      this.ends.push(bookings.isAlways ? start + next * DAY : bookings.sessionEnd(start, next));
    return this.ends[session];
  }

  /** The first session that ends after a moment. */
  private sessionOf(moment: number): number {
    let session = 1;
    while (this.endOf(session) <= moment) session += 1;
    return session;
  }

  private bookedIn(session: number): number {
    const { bookings } = this.strategy.model;
    return this.instruments * bookings.openBetween(this.endOf(session - 1), this.endOf(session));
  }

  /** Sessions up to this one come into being with it. */
  private sharesIn(session: number): readonly Float64Array[] {
    while (this.shares.length < session) this.shares.push(USES.map(() => new Float64Array(this.replications)));
    return this.shares[session - 1];
  }
}
