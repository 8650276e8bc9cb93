import type { LoadedScenario } from '../../scenario/load.js';
import { listed } from '../../wording/phrases.js';

/** A warning where a study holds at its value what the scenario says is known only so far; none where it says nothing of it. */
export function heldAtCentre({ inputs }: Pick<LoadedScenario, 'inputs'>): readonly string[] {
  if (inputs.length === 0) return [];
  return [
    `parameter uncertainty is not propagated here (${listed(inputs.map(({ description }) => description))}); \`swap-or-hop compare\` draws it`,
  ];
}
