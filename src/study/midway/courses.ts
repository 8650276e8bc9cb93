import { type CampaignModel, compileModel } from '../../campaign/model.js';
import type { CampaignState } from '../../campaign/state.js';
import { impossibleIn } from '../../scenario/checks/impossible.js';
import { type LoadedScenario, withOwnValue } from '../../scenario/load.js';
import type { KnownCampaign } from '../../campaign/known.js';
import type { Runnable } from '../replicate.js';

/** One way to go on. */
export interface Course extends Runnable {
  /** What is done at once, before anything else. */
  readonly begin: (state: CampaignState) => CampaignState;
}

export const CARRY_ON = 'carry on by the rules';
export const CHANGE_NOW = 'change the tip now';

/** Shares of the images still to come after which a tip is tried to be changed. */
const LIMITS = [0.25, 0.5];

/**
 * The ways to go on: by the rules, with the tip that is on changed at once, and with tips changed after so many images.
 * Where no tip is on there is nothing to decide.
 */
export function coursesOf(
  loaded: LoadedScenario,
  strategy: string,
  model: CampaignModel,
  known: KnownCampaign,
): readonly Course[] {
  const carryOn: Course = { name: CARRY_ON, model, begin: (state) => state };
  const tips = known.instruments.map(({ tip }) => tip).filter((tip) => tip !== null);
  const isToCome = (image: number) => {
    const { fate, takes } = known.images[image];
    return fate === 'not yet' || (fate === 'flagged' && takes < model.settings.noticing.attempts);
  };
  const toCome = model.images.filter(({ number }) => isToCome(number)).length;
  if (tips.length === 0 || toCome === 0) return [carryOn];
  const { after, cleanFirst, recondition } = model.settings.rules;
  // A tip that was flagged and is not to be mended goes by the rules too.
  const isOpen = tips.some(({ judgement }) => judgement === 'sound') || cleanFirst.tries + recondition.tries > 0;
  const changeNow: readonly Course[] = isOpen ? [{ name: CHANGE_NOW, model, begin: withTipsGone }] : [];
  const limits = [...new Set(LIMITS.map((share) => Math.ceil(toCome * share)))].filter(
    (images) => images >= 2 && !(after?.unit === 'image' && after.amount === images),
  );
  return [carryOn, ...changeNow, ...limits.flatMap((images) => limited(loaded, strategy, model, images))];
}

/** The strategy with another limit of use; none where that cannot be carried out. */
function limited(loaded: LoadedScenario, strategy: string, model: CampaignModel, images: number): readonly Course[] {
  const changed = withOwnValue(loaded, strategy, 'rules.after', `${images} images`);
  if (!changed.ok || impossibleIn(changed.scenario) !== null) return [];
  const found = changed.scenario.strategies.find(({ name }) => name === strategy);
  if (found === undefined) return [];
  const { start, allocationEnd } = model;
  const other = { ...compileModel(found.workflow, found.settings), start, allocationEnd };
  return [{ name: `change tips at ${images} images`, model: other, begin: (state) => state }];
}

/** Every tip that is on goes at the next take, uncleaned, as one that was seen to break. */
function withTipsGone({ instruments }: CampaignState): CampaignState {
  return {
    instruments: instruments.map((instrument) => {
      const { mounted } = instrument.tips;
      if (mounted === null) return instrument;
      const judged = { ...mounted, judgement: 'flagged by an image' as const, seenBroken: true };
      return { ...instrument, tips: { ...instrument.tips, mounted: judged } };
    }),
  };
}
