import type { Moves } from './moves.js';
import type { Act, Lines } from './procedure.js';
import type { WorkflowTraits } from './workflow-traits.js';

/** One workflow at one instrument: its sheet. A third one is one more file, one line in `workflows.ts` and one in the schema. */
export interface Workflow extends WorkflowTraits {
  readonly moves: Moves;
  /** What comes to light where a procedure is given up half-way. */
  readonly givenUp?: Act;
  /** Everything up to the set-up, with the first tip ready to be mounted. */
  readonly start: Lines;
  /** Another tip for the image that is due, at its region. */
  readonly changeTip: Lines;
}
