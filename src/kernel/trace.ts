/** One step of a run, as the simulation's `trace` hook is told it, in order. */
export interface TraceRecord {
  /** Simulated time, whole microseconds. */
  readonly time: number;
  /** Label of the process concerned. */
  readonly label: string;
  /** The process was started, resumed after its sleep or wait, interrupted, or has ended. */
  readonly kind: 'start' | 'resume' | 'interrupt' | 'end';
  /** What an interrupt gave as its reason; undefined otherwise. */
  readonly reason: unknown;
}

/** An error thrown inside a process, with where and when; the original error is its `cause`. */
export class ProcessError extends Error {
  override readonly name = 'ProcessError';

  /**
   * @param label label of the process
   * @param time simulated time of the error, whole microseconds
   */
  constructor(
    readonly label: string,
    readonly time: number,
    cause: unknown,
  ) {
    super(`in ${label} at simulated time ${time} µs: ${cause instanceof Error ? cause.message : String(cause)}`, {
      cause,
    });
  }
}

/** Something was to happen later than 2^53 microseconds (285 years), which is as far as a clock goes that counts each of them. */
export class BeyondClock extends RangeError {
  override readonly name = 'BeyondClock';

  constructor() {
    super('it would go on for longer than the 285 years of the clock');
  }
}
