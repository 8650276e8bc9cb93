import { STEP_WORDS } from '../../../analysis/timeline.js';
import type { StepName } from '../../../campaign/steps.js';
import type { WorkflowName } from '../../../scenario/schema/scenario.js';

/** A situation with the steps that it takes, in their order. */
type Sheet = readonly (readonly [situation: string, steps: readonly StepName[]])[];

const ANOTHER_REGION: Sheet = [['Region visited for the first time', ['retract', 'locate', 'approach']]];

/** What each workflow does, situation by situation; a test holds it to recorded campaigns. */
export const STEP_SHEETS: Readonly<Record<WorkflowName, Sheet>> = {
  swap: [
    ['Start', ['setUp', 'warmUp', 'locate', 'approach']],
    ['Change of tip', ['retract', 'exchange', 'align', 'resonance', 'approach', 'relocate', 'settle']],
    ...ANOTHER_REGION,
    ['Region visited before', ['retract', 'approach', 'relocate']],
    ['Change of sample', ['retract', 'changeSample', 'locate', 'approach', 'settle']],
  ],
  hop: [
    ['Start', ['setUp', 'warmUp', 'locate', 'approach']],
    ['Change of tip', ['retract', 'offset', 'approach', 'resonance', 'settle', 'register']],
    ['Change of tip kind', ['retract', 'offset', 'coarseMove', 'approach', 'resonance', 'settle', 'register']],
    ['Chip used up', ['retract', 'chipExchange', 'offset', 'approach', 'resonance', 'settle', 'register']],
    ...ANOTHER_REGION,
    ['Region visited before', ['retract', 'approach', 'register']],
    ['Change of sample', ['retract', 'changeSample', 'align', 'resonance', 'locate', 'approach', 'settle']],
  ],
};

export function sheetText(workflow: WorkflowName): readonly string[] {
  return STEP_SHEETS[workflow].map(
    ([situation, steps]) => `${situation} (${workflow}): ${steps.map((step) => STEP_WORDS[step]).join(' → ')}.`,
  );
}
