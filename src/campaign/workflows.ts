import type { WorkflowName } from '../scenario/schema/scenario.js';
import { Hop } from './hop.js';
import type { WorkflowMaker } from './instrument.js';
import { Swap } from './swap.js';

/** Every workflow that a strategy may follow; a third one is one more line here. */
export const WORKFLOWS: Readonly<Record<WorkflowName, WorkflowMaker>> = {
  swap: (at) => new Swap(at),
  hop: (at) => new Hop(at),
};
