import type { Workplace } from './workplace.js';
import type { ImageModel } from './model.js';
import { OP, type Procedure, type StepPlan } from './procedure.js';
import type { Ready, Wait } from './wait.js';
import { RANK } from './ranks.js';
import type { SurfaceNeed } from './steps.js';

const NOTHING: Procedure = [];

/** A procedure that waits for another one to end. */
interface Frame {
  readonly procedure: Procedure;
  readonly line: number;
  readonly due: ImageModel;
}

/** Plays procedures at one instrument, line by line. */
export class Interpreter {
  private procedure: Procedure = NOTHING;
  private line = 0;
  private readonly callers: Frame[] = [];
  private waiting: Wait | null = null;
  /** The step that runs; null where none does. */
  private running: StepPlan | null = null;
  private hands = false;

  constructor(
    private readonly at: Workplace,
    private readonly back: Readonly<Record<SurfaceNeed, Procedure>>,
  ) {}

  /** Begins a procedure for an image, in place of whatever was under way. */
  begin(procedure: Procedure, due: ImageModel): void {
    this.abandon();
    this.procedure = procedure;
    this.at.due = due;
  }

  /** Drops what is under way. */
  abandon(): void {
    this.procedure = NOTHING;
    this.line = 0;
    if (this.callers.length > 0) this.callers.length = 0;
    this.waiting = null;
    this.running = null;
  }

  /** Goes on to the end of the procedure; true where it is suspended before, and is to be called again with the reason. */
  isSuspended(reason: unknown): boolean {
    const { at } = this;
    if (this.running !== null) this.end(this.running);
    else if (this.waiting !== null && this.isWaiting(this.waiting, reason)) return true;
    for (;;) {
      while (this.line < this.procedure.length) {
        const instruction = this.procedure[this.line];
        switch (instruction.op) {
          case OP.step:
            if (instruction.step !== null && this.isHeldUp(instruction.step)) return true;
            break;
          case OP.act:
            this.line += 1;
            instruction.act(at);
            break;
          case OP.jump:
            this.line = instruction.to;
            break;
          case OP.jumpIf:
            this.line = instruction.test(at) ? instruction.to : this.line + 1;
            break;
          case OP.jumpUnless:
            this.line = instruction.test(at) ? this.line + 1 : instruction.to;
            break;
          case OP.wait: {
            const wait = instruction.wait(at);
            if (wait === null) this.line += 1;
            else if (this.isWaiting(wait, undefined)) return true;
          }
        }
      }
      if (this.callers.length === 0) return false;
      const caller = this.callers.pop();
      if (caller === undefined) return false;
      this.procedure = caller.procedure;
      this.line = caller.line;
      at.due = caller.due;
    }
  }

  /**
   * Does a step, and what comes at its end. One that needs the tip at the surface first has it brought back there, if the
   * instrument stood idle over a closing in the meantime. True where it is suspended.
   */
  private isHeldUp(step: StepPlan): boolean {
    const { at } = this;
    if (step.surface !== null && at.isAwayFrom(step.surface)) {
      this.call(this.back[step.surface], at.awaited);
      return false;
    }
    const room = step.isScan ? at.due.pass.duration : 0;
    if (at.scheduler.mayStart(step.need, room, step.isAtBench)) return this.isPerforming(step, step.need === 'hands');
    return this.isWaiting(step.wait(at), undefined);
  }

  private call(procedure: Procedure, due: ImageModel): void {
    this.callers.push({ procedure: this.procedure, line: this.line, due: this.at.due });
    this.procedure = procedure;
    this.line = 0;
    this.at.due = due;
  }

  /** Goes on with a wait; true where it lasts. */
  private isWaiting(wait: Wait, reason: unknown): boolean {
    this.waiting = wait;
    const { done, value } = wait.next(reason);
    if (done !== true) return true;
    this.waiting = null;
    return this.isHeldUpAfter(value ?? 'nothing');
  }

  private isHeldUpAfter(ready: Ready): boolean {
    const { at } = this;
    const { step } = this.procedure[this.line];
    if (step === null || ready === 'changed') {
      const isOver = ready === 'changed' && (step?.changed ?? null) === null;
      this.line = isOver ? this.procedure.length : this.line + 1;
      step?.changed?.(at);
      return false;
    }
    const hands = ready === 'hands';
    if (step.surface === null || !at.isAwayFrom(step.surface)) return this.isPerforming(step, hands);
    if (hands) at.scheduler.releaseHands();
    return false;
  }

  private isPerforming(step: StepPlan, hands: boolean): boolean {
    const { at } = this;
    const { scheduler } = at;
    step.begun?.(at);
    if (step.isNeedless?.(at) === true) {
      if (hands) scheduler.releaseHands();
      this.line += 1;
      step.then?.(at);
      return false;
    }
    this.hands = hands;
    scheduler.begin();
    const { sim } = scheduler;
    const end = sim.now + this.durationOf(step);
    this.running = step;
    if (sim.sleepUntil(end, RANK.stepEnd)) return true;
    this.end(step);
    return false;
  }

  private durationOf({ model, takes, isScan }: StepPlan): number {
    if (takes >= 0) return takes;
    const { scan, scheduler } = this.at;
    return isScan ? scan.begin() : scheduler.nextDuration(model);
  }

  private end(step: StepPlan): void {
    this.running = null;
    this.line += 1;
    const { at } = this;
    if (step.isAtBench) at.scheduler.endAtBench(step.model);
    else at.scheduler.end(step.model, step.activity, this.hands, step.isScan ? at.scan.take : null);
    step.then?.(at);
  }
}
