import type { Cause } from './causes.js';

/** An event of a hazard during a scan, as the tip feels it. */
export interface TipEvent {
  readonly cause: Cause;
  /** Fraction of the scan time at which it comes. */
  readonly at: number;
  /** Fraction at which it will have cleared; Infinity for what does not clear in sight. */
  readonly clearsAt: number;
  /** Its number within this scan, from 0. */
  readonly ordinal: number;
}

/** What a tip is told, and asks, while a scan runs. */
export interface ScanWatch {
  /** The clock (microseconds) at a fraction of the scan time. */
  timeAt(fraction: number): number;
  /** Fraction at which the scan stops because an event was noticed; Infinity: it was not. Asked once an event, as it comes. */
  stopsAt(event: TipEvent): number;
}

/** How a scan went for the tip. */
export interface ScanOutcome {
  /** Mean over the image of what the tip's state leaves of quality, in [0, 1]. */
  state: number;
  /** Apex radius (nm) at mid-image. */
  radius: number;
  /** Fraction of the scan done: 1 unless it was stopped. */
  done: number;
  /** The cause of the event that was noticed and stopped the scan, or null. */
  stoppedBy: Cause | null;
}
