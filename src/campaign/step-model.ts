import { compileDuration, type CompiledDuration, LONGEST, secondsAt } from '../chance/duration.js';
import { pow } from '../chance/elementary.js';
import { normalScore, power } from '../chance/scores.js';
import { SECOND } from '../kernel/clock.js';
import type { DisturbanceKind } from '../probe/drift.js';
import type { Scenario, WorkflowName } from '../scenario/schema/scenario.js';
import { durationOf, type Step, stepPace, untilOf } from '../scenario/schema/steps.js';
import { ACTIVITY_NUMBER } from './activities.js';
import {
  alwaysCountsAs,
  disturbanceOf,
  type Need,
  perStep,
  type Phase,
  runsUnattended,
  STEP_NUMBER,
  type StepName,
} from './steps.js';

/** A step, ready for use. */
export interface StepModel {
  readonly name: StepName;
  /** Numbers its draws. */
  readonly number: number;
  /** Number of what its time counts as; -1 where that depends on what it is done for. */
  readonly activity: number;
  readonly manual: boolean;
  /** Who must be there for it to start, and while the instrument resumes after a closing. */
  readonly need: Need;
  readonly needResuming: Need;
  /** What it leaves drifting; null where it disturbs nothing. */
  readonly disturbs: DisturbanceKind | null;
  readonly success: number;
  /** The time is the same each time, and costs no draw. */
  readonly isFixed: boolean;
  /** Drift rate (nm/s) down to which it waits, at the strategy's pace of waiting; null: it takes its time. */
  readonly until: number | null;
  /** How long it takes at the usual pace; null where that is known elsewhere, or the workflow lacks it. */
  readonly duration: CompiledDuration | null;
  /** Microseconds that a second of it lasts at the strategy's pace. */
  readonly scale: number;
  /** Where the time is lognormal, its median in seconds and the standard deviation of its logarithm, which is 0 elsewhere. */
  readonly median: number;
  readonly sigma: number;
  /** Microseconds that it takes where that is fixed. */
  readonly fixedTime: number;
}

/**
 * Microseconds below which a share u of tries of a step lies, at the strategy's pace.
 * @throws Error for a scan or review, whose time is known elsewhere, or a step that the workflow lacks
 */
export function stepTime({ name, duration, scale }: StepModel, u: number): number {
  if (duration === null) throw new Error(`No time is known of the step ${name}.`);
  return Math.floor(secondsAt(duration, u) * scale + 0.5);
}

/** As `stepTime`, of a step whose time is lognormal. */
export function lognormalStepTime({ median, sigma, scale }: StepModel, u: number): number {
  return Math.floor(Math.min(LONGEST, median * power(sigma * normalScore(u))) * scale + 0.5);
}

/** Who must be there for a step. */
export function needOf({ need, needResuming }: StepModel, phase: Phase): Need {
  return phase === 'resuming' ? needResuming : need;
}

/** The steps of the workflow, with cleaning, reconditioning, checking and reviewing beside them. */
export function stepModels(
  settings: Scenario,
  workflow: WorkflowName,
  isAttended: boolean,
): Readonly<Record<StepName, StepModel>> {
  const { cleanFirst, recondition } = settings.rules;
  const { check } = settings.noticing;
  const fixed = (time: number, manual: boolean): Step => ({
    fixed: time,
    manual,
    success: 1,
  });
  const steps: Readonly<Partial<Record<StepName, Step>>> = {
    ...settings.workflows[workflow].steps,
    clean: fixed(cleanFirst.time, cleanFirst.manual),
    recondition: fixed(recondition.time, recondition.manual),
    ...(check === undefined ? {} : { check: fixed(check.time, check.manual) }),
  };
  return perStep((name) => {
    const step = steps[name];
    const activity = alwaysCountsAs(name);
    const manual = step?.manual ?? (name === 'review' && settings.noticing.review.by === 'operator');
    const needIn = (phase: Phase): Need => {
      if (manual) return 'hands';
      return isAttended || runsUnattended(name, phase, settings.bookings.unattended) ? 'nobody' : 'presence';
    };
    const { success, isFixed, until, duration, scale } =
      step === undefined ? UNTIMED : timed(name, step, settings, workflow);
    return {
      // Written out, as spreading costs more than all the rest of this function.
      name,
      number: STEP_NUMBER[name],
      activity: activity === null ? -1 : ACTIVITY_NUMBER[activity],
      manual,
      need: needIn('measuring'),
      needResuming: needIn('resuming'),
      disturbs: disturbanceOf(name),
      success,
      isFixed,
      until,
      duration,
      scale,
      median: duration?.median ?? 0,
      sigma: duration?.sigma ?? 0,
      fixedTime: Math.floor((duration?.median ?? 0) * scale + 0.5),
    };
  });
}

/** How a step's tries go. */
type Tries = Pick<StepModel, 'success' | 'isFixed' | 'until' | 'duration' | 'scale'>;

/** Hurried hands take 1/paceHands of the usual time, hurried waits 1/paceWait of it. */
function timed(name: StepName, step: Step, settings: Scenario, workflow: WorkflowName): Tries {
  const { manual } = step;
  const until = untilOf(step);
  const duration = durationOf(step);
  return {
    success: manual ? hastySuccess(step.success, settings, workflow) : step.success,
    isFixed: duration.distribution === 'fixed',
    until: until === undefined ? null : until * settings.pace.wait,
    duration: compileDuration(duration),
    scale: SECOND / stepPace(name, manual, settings.pace),
  };
}

/** A try of hurried hands fails paceHands^κ times as often, at most this often unless it fails more often at the usual pace. */
const MOST_FAILURES = 0.95;

function hastySuccess(success: number, { workflows, pace }: Scenario, workflow: WorkflowName): number {
  const growth = pow(pace.hands, workflows[workflow].haste?.successExponent ?? 0);
  const usual = 1 - success;
  return growth === 1 ? success : 1 - Math.min(Math.max(MOST_FAILURES, usual), usual * growth);
}

/** A scan or review, whose time is known elsewhere, or a step that the workflow lacks. */
const UNTIMED: Tries = { success: 1, isFixed: true, until: null, duration: null, scale: SECOND };
