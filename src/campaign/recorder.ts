import type { DisturbanceKind } from '../probe/drift.js';
import type { Tip } from '../probe/tip.js';
import type { Activity } from './activities.js';
import type { Take } from './ledger.js';
import type { StepName } from './steps.js';

/** A drift that a step started at its end. */
export interface StartedDrift {
  readonly kind: DisturbanceKind;
  /** In nanometres a second. */
  readonly rate: number;
}

/** A stretch of an instrument's time. Times in microseconds. */
export interface RecordedStep {
  readonly instrument: number;
  readonly start: number;
  readonly end: number;
  readonly activity: Activity;
  /** The step done, or what was waited for. */
  readonly step: StepName | 'wait' | 'late review';
  readonly tip: Tip | null;
  /** The take, where the step was a scan. */
  readonly take: Take | null;
  /** Null where it started none. */
  readonly drift: StartedDrift | null;
}

/** Told of everything that happens in a campaign; nothing depends on it. Times in microseconds. */
export interface Recorder {
  step(record: RecordedStep): void;
  /** Something that happens in an instant. */
  event(time: number, instrument: number, what: string, detail: string): void;
  /** The tip's state as it is from now on; null: none is mounted. */
  tip(time: number, instrument: number, tip: Tip | null): void;
}
