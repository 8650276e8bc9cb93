import type { Scenario, WorkflowName } from '../scenario/schema/scenario.js';
import { hop } from './hop.js';
import { swap } from './swap.js';
import type { Workflow } from './workflow.js';

/** Every workflow that a strategy may follow; a third one is one more line here. */
export const WORKFLOWS: Readonly<Record<WorkflowName, (settings: Scenario) => Workflow>> = { swap, hop };
