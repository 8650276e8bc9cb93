import { impossibleIn } from '../../scenario/checks/impossible.js';
import { type LoadedScenario, type Strategy, withOwnValues } from '../../scenario/load.js';
import type { KnownCampaign } from '../../execution/midway/known.js';
import type { Course } from '../../execution/experiments/continuations.js';

export const CARRY_ON = 'carry on by the rules';
export const CHANGE_NOW = 'change the tip now';

/** Shares of the images still to come after which a tip is tried to be changed. */
const LIMITS = [0.25, 0.5];

/**
 * The ways to go on: by the rules, with the tip that is on changed at once, and with tips changed after so many images.
 * Where no tip is on there is nothing to decide.
 */
export function coursesOf(loaded: LoadedScenario, strategy: Strategy, known: KnownCampaign): readonly Course[] {
  const carryOn: Course = { strategy: { ...strategy, name: CARRY_ON }, changesTips: false };
  const tips = known.instruments.map(({ tip }) => tip).filter((tip) => tip !== null);
  const isToCome = (image: number) => {
    const { fate, takes } = known.images[image];
    return fate === 'not yet' || (fate === 'flagged' && takes < strategy.settings.noticing.attempts);
  };
  const toCome = known.images.filter((_, image) => isToCome(image)).length;
  if (tips.length === 0 || toCome === 0) return [carryOn];
  const { after, cleanFirst, recondition } = strategy.settings.rules;
  // A tip that was flagged and is not to be mended goes by the rules too.
  const isOpen = tips.some(({ judgement }) => judgement === 'sound') || cleanFirst.tries + recondition.tries > 0;
  const changeNow: readonly Course[] = isOpen
    ? [{ strategy: { ...strategy, name: CHANGE_NOW }, changesTips: true }]
    : [];
  const limits = [...new Set(LIMITS.map((share) => Math.ceil(toCome * share)))].filter(
    (images) => images >= 2 && !(after?.unit === 'image' && after.amount === images),
  );
  return [carryOn, ...changeNow, ...limits.flatMap((images) => limited(loaded, strategy.name, images))];
}

/** The strategy with another limit of use; none where that cannot be carried out. */
function limited(loaded: LoadedScenario, strategy: string, images: number): readonly Course[] {
  const changed = withOwnValues(loaded, strategy, [{ path: 'rules.after', value: `${images} images` }]);
  if (!changed.ok || impossibleIn(changed.scenario) !== null) return [];
  const found = changed.scenario.strategies.find(({ name }) => name === strategy);
  if (found === undefined) return [];
  return [{ strategy: { ...found, name: `change tips at ${images} images` }, changesTips: false }];
}
