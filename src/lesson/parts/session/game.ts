import type { Choice, Decision } from '../../session/choices.js';
import { nextMoment, nextPoint, pastWait } from '../../session/moment.js';
import type { Point } from '../../session/player.js';
import type { SessionAnswer, Playing } from '../../tasks/session.js';

const UNKNOWN: Playing = {
  end: 0,
  startsAt: 0,
  bookedUntil: null,
  images: 0,
  steps: [],
  told: [],
  points: [],
  question: null,
  offered: [],
};

/** Where a person is in a session: the time that has come, what was decided, and what is asked. Times in seconds. */
export class Game {
  time = 0;
  decisions: readonly Decision[] = [];
  /** The point at which a choice is waited for. */
  asked: Point | null = null;
  /** The session as it is decided now has not come from the engine yet: it is paused. */
  isAwaited = true;
  /** The person wants to inspect the tip: time stops before the next image. */
  inspects = false;
  private answer: SessionAnswer = { playing: UNKNOWN, afterwards: null };

  get playing(): Playing {
    return this.answer.playing;
  }

  /** What is to be seen afterwards; null until time has come to the end. */
  get afterwards(): SessionAnswer['afterwards'] {
    return this.isOver ? this.answer.afterwards : null;
  }

  get isOver(): boolean {
    return this.answer.afterwards !== null && this.time >= this.playing.end;
  }

  /** Takes in the session as the decisions have it. */
  take(answer: SessionAnswer): void {
    this.answer = answer;
    this.isAwaited = false;
    this.time = Math.min(this.time, answer.playing.end);
    this.arrive();
  }

  /** Begins anew: another session, or decisions from a link, of which the last one has just been made. */
  restart(decisions: readonly Decision[]): void {
    this.decisions = decisions;
    this.time = 0;
    this.asked = null;
    this.inspects = false;
    this.isAwaited = true;
    this.answer = { playing: UNKNOWN, afterwards: null };
  }

  /** Time goes on by so many seconds. */
  pass(seconds: number): void {
    this.moveTo(pastWait(this.playing, this.time) + seconds);
  }

  /** Time goes on to the next step. */
  step(): void {
    this.moveTo(nextMoment(this.playing, this.time));
  }

  /** To the moment of the last decision, where there is one. */
  moveToLastDecision(): void {
    const last = this.decisions.at(-1);
    const point = this.playing.points.find((each) => each.point === last?.point);
    if (point !== undefined) this.moveTo(point.time);
  }

  /** What is done at the point that is asked about; later decisions are void. Whether the session is another one now. */
  decide(choice: Choice): boolean {
    const { asked } = this;
    if (asked === null) return false;
    this.asked = null;
    const earlier = this.decisions.filter(({ point }) => point < asked.point);
    const isAsBefore = asked.doubt === null && choice === 'go on';
    this.decisions = isAsBefore ? earlier : [...earlier, { point: asked.point, choice }];
    this.isAwaited = !isAsBefore || asked.choice !== 'go on';
    return this.isAwaited;
  }

  private moveTo(time: number): void {
    if (this.asked !== null || this.isAwaited) return;
    const { playing } = this;
    const stop = this.inspects ? nextPoint(playing, this.time) : null;
    this.time = Math.max(this.time, Math.min(time, stop?.time ?? playing.end));
    if (stop !== null && this.time >= stop.time) {
      this.inspects = false;
      this.asked = stop;
    } else {
      this.arrive();
    }
  }

  /** Where time has come to the question that the session waits for, it is asked. */
  private arrive(): void {
    const { question, end } = this.playing;
    if (question === null || this.time < end) return;
    this.inspects = false;
    this.asked = question;
  }
}
