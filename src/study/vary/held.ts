import type { LoadedScenario } from '../../scenario/load.js';
import { unknownInputs } from '../../scenario/uncertainty.js';
import { listed } from '../words.js';

/** A warning where a study holds at its value what the scenario says is known only so far; none where it says nothing of it. */
export function heldAtCentre({ raw }: Pick<LoadedScenario, 'raw'>): readonly string[] {
  const inputs = unknownInputs(raw).map(({ description }) => description);
  if (inputs.length === 0) return [];
  return [
    `what the scenario says is known only so far is held at its value here (${listed(inputs)}); \`swap-or-hop compare\` draws it`,
  ];
}
