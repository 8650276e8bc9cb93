import type { Outcome } from '../campaign/outcome.js';
import type { Strategy } from '../scenario/load.js';
import type { Row } from './columns.js';
import type { Wants } from './batch.js';

/** An experiment on the random streams of a seed, ready to be run. */
export interface Runner {
  /** How many strategies it has. */
  readonly parts: number;
  /** Runs one replication; `put` is given the outcome of each part in turn, with further columns where it has any. */
  readonly run: (replication: number, put: (part: number, outcome: Outcome, more?: Row) => void) => void;
}

/** What is known of a kind of experiments. */
export interface ExperimentKind<Experiment> {
  readonly runnerOf: (experiment: Experiment, seed: string, wants: Wants) => Runner;
  /** What is run in one replication, in the order of its results; of a part only its name and its plan are sure. */
  readonly strategiesOf: (experiment: Experiment) => readonly Strategy[];
}
