import type { CampaignModel } from '../campaign/model.js';
import { STEPS_BETWEEN_SAMPLES } from '../scenario/samples.js';
import type { Runnable } from './replicate.js';

/**
 * Everything that a strategy's campaigns depend on, as text to be compared: not the steps of another workflow, nor what is
 * only said, nor the acceleration of a hazard or a remedy where it comes to nothing.
 */
export function whatCounts({ model }: Runnable): string {
  const { settings } = model;
  const { plan, tips, noticing, rules, stock, pace, instruments, operators, bookings, costs } = settings;
  const { cleanFirst, recondition } = rules;
  const exposures = model.kinds.map(({ hazards }) => hazards.map(({ exposure }) => exposure));
  return JSON.stringify({
    ...{ plan, noticing, stock, pace, instruments, operators, bookings, costs, exposures },
    tips: Object.values(tips).map((kind) => ({
      ...kind,
      hazards: kind.hazards.map((hazard) => ({ ...hazard, acceleration: null })),
    })),
    own: ownOf(model),
    rules: {
      ...rules,
      cleanFirst: cleanFirst.tries > 0 ? cleanFirst : null,
      recondition: recondition.tries > 0 ? recondition : null,
    },
  });
}

/** The workflow without the steps that a plan of one sample never comes to. */
function ownOf({ workflow, settings, samples }: CampaignModel): object {
  const own = settings.workflows[workflow];
  if (samples.length > 1) return own;
  const steps = Object.entries(own.steps).filter(([name]) => !STEPS_BETWEEN_SAMPLES[workflow].includes(name));
  return { ...own, steps: Object.fromEntries(steps) };
}
