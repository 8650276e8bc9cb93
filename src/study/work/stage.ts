import type { Outcome } from '../../campaign/outcome.js';
import type { Row } from './columns.js';

/** A play on the luck of a seed, ready to be performed. */
export interface Stage {
  /** How many strategies it has. */
  readonly parts: number;
  /** Plays one replication; `put` is given the outcome of each part in turn, with further columns where the play has any. */
  readonly perform: (replication: number, put: (part: number, outcome: Outcome, more?: Row) => void) => void;
}
