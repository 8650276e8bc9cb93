import type { Process, Task } from '../kernel/simulation.js';
import type { CampaignContext } from './context.js';
import type { Take } from './ledger.js';
import { RANK } from './ranks.js';
import type { Wait } from './wait.js';
import type { Timesheet } from './timesheet.js';
import type { Need } from './steps.js';

/**
 * Takes of absent hours that wait for an operator's review. The operator reviews them on return, oldest first, while a
 * scan may still be running; the instrument's next step waits for it.
 */
export class ReviewQueue {
  private pending: Take[] = [];
  private working = false;
  private held: Task | null = null;
  /** Microseconds spent on late reviews that have ended, and since when one is running, if one is. */
  private spent = 0;
  private since = 0;
  private reviewing = false;
  /** When the last late review ended; 0 if there was none. */
  lastReview = 0;

  constructor(
    private readonly context: CampaignContext,
    private readonly number: number,
    private readonly timesheet: Timesheet,
  ) {}

  /** Takes that wait, oldest first. */
  get waiting(): readonly Take[] {
    return this.pending;
  }

  get isEmpty(): boolean {
    return this.pending.length === 0;
  }

  /** Puts a take into the queue; `judge` is told when it has been reviewed, and when that review began. */
  put(take: Take, judge: (take: Take, since: number) => void): void {
    this.pending.push(take);
    if (this.working) return;
    this.working = true;
    this.context.sim.spawn(
      this.work(judge),
      this.context.sim.now,
      RANK.start,
      `reviews of instrument ${this.number + 1}`,
    );
  }

  /** Reviews come before a step if an operator is there to do them, or must come for the step. */
  holdsUp(need: Need): boolean {
    return this.pending.length > 0 && (need !== 'nobody' || this.context.isAttended);
  }

  /** Holds up the active process until the queue is empty, (if nobody is needed) until the operators go, or until a moment. */
  *wait(need: Need, until = Infinity): Wait {
    const { sim, model } = this.context;
    while (this.holdsUp(need) && sim.now < until) {
      this.held = sim.active;
      const leaves = need === 'nobody' ? model.presence.closing(sim.now) : Infinity;
      const latest = Math.min(leaves, until);
      if (latest === Infinity) {
        sim.wait();
        yield;
      } else if (sim.sleepUntil(latest, leaves <= until ? RANK.closing : RANK.start)) yield;
      this.held = null;
    }
    return undefined;
  }

  /** Since when a late review is running; null where none is. */
  get reviewingSince(): number | null {
    return this.reviewing ? this.since : null;
  }

  /** Microseconds of late reviewing up to now. */
  get timeSpent(): number {
    return this.spent + (this.reviewing ? this.context.sim.now - this.since : 0);
  }

  private *work(judge: (take: Take, since: number) => void): Process {
    const { sim, operators, model, recorder } = this.context;
    const time = model.reviewTime;
    while (this.pending.length > 0) {
      if (operators.request(1, this.number)) yield;
      while (this.pending.length > 0 && this.context.isAttended) {
        this.since = sim.now;
        this.reviewing = true;
        if (sim.sleepUntil(sim.now + time, RANK.stepEnd)) yield;
        this.reviewing = false;
        this.spent += time;
        this.timesheet.waited('reviewing', this.since, sim.now);
        this.lastReview = sim.now;
        const take = this.pending.shift();
        if (take !== undefined) judge(take, this.since);
        recorder?.event(sim.now, this.number, 'late review', `of image ${(take?.image.number ?? 0) + 1}`);
      }
      operators.release();
    }
    this.working = false;
    if (this.held !== null) sim.wake(this.held, sim.now, RANK.start);
  }
}
