import type { LoadedScenario, Strategy } from '../../scenario/load.js';
import { unknownInputs } from '../../scenario/uncertainty.js';
import type { Play } from '../work/order.js';

/**
 * Strategies as each campaign meets them. What the scenario says that it does not know of hazards is drawn anew for each
 * campaign, for all strategies alike, so that what a share of campaigns needs holds luck and not-knowing both.
 * @param strategies of the scenario, with another stock or other bookings
 */
export function playOf(loaded: LoadedScenario, strategies: readonly Strategy[]): Play {
  const inputs = unknownInputs(loaded.raw).map(({ path }) => path);
  if (inputs.length === 0) return { kind: 'strategies', strategies };
  const parts = strategies.map(({ name, settings: { stock, bookings } }) => ({ name, over: { stock, bookings } }));
  return { kind: 'drawn', scenario: loaded, inputs, perDraw: 1, parts };
}
