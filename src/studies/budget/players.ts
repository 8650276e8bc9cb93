import type { LoadedScenario, Strategy } from '../../scenario/load.js';
import type { Experiment } from '../../execution/experiment.js';

/**
 * Strategies as each campaign meets them. What the scenario says that it does not know of hazards is drawn anew for each
 * campaign, for all strategies alike, so that what a share of campaigns needs holds random variation and parameter uncertainty together.
 * @param strategies of the scenario, with another stock or other bookings
 */
export function experimentOf(loaded: LoadedScenario, strategies: readonly Strategy[]): Experiment {
  const inputs = loaded.inputs.map(({ path }) => path);
  if (inputs.length === 0) return { kind: 'strategies', strategies };
  const parts = strategies.map(({ name, settings: { stock, bookings } }) => ({ name, over: { stock, bookings } }));
  return { kind: 'drawn', scenario: loaded, inputs, perDraw: 1, parts };
}
