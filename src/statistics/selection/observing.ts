/** What a selection asks of the systems that it compares. Systems are numbered from 0. */
export interface Observing {
  /** Observation `index` (from 0) of a system; the same answer however often it is asked. */
  readonly observe: (system: number, index: number) => number;
  /** Whether one more observation of so many systems may be taken; false ends the procedure undecided. */
  readonly mayGoOn: (systems: number) => boolean;
}

/** Observations that a procedure is about to ask for: of each of these systems so many in all. */
export interface Wanted {
  readonly systems: readonly number[];
  readonly observations: number;
}

/** A sequential procedure, which says what it is about to ask for, so that it can be got ready, all systems at once. */
export type Procedure<Result> = Generator<Wanted, Result, undefined>;

/** Error, first stage and indifference of a fully sequential procedure. */
export interface Sequential {
  /** Chance of being wrong that is allowed, in (0, 1). */
  readonly error: number;
  /** Observations of each system before anything is decided, at least 2. */
  readonly firstStage: number;
  /** The difference worth detecting, above zero, in the unit of the observations. */
  readonly zone: number;
}
