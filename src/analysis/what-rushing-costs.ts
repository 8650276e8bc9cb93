import { declaredOf } from '../probe/causes.js';
import type { Hazard, Scenario, WorkflowName } from '../scenario/schema/scenario.js';
import type { Strategy } from '../scenario/load.js';
import { listed, quoted } from '../wording/phrases.js';

/** A pace that a person may hurry. */
export type Pace = keyof Scenario['pace'];

/** Something that grows worse as a pace quickens. */
interface HasteCost {
  readonly pace: Pace;
  /** As a sentence names it, without an article. */
  readonly what: string;
  readonly isIn: (settings: Scenario, workflow: WorkflowName) => boolean;
}

/** Everything in the model that makes haste worse; what is added to the model is one more entry here. */
const COSTS: readonly HasteCost[] = [
  {
    pace: 'scan',
    what: 'tracking bandwidth with a needed resolution',
    isIn: ({ plan }) =>
      plan.passes.some(
        ({ neededResolution, trackingBandwidth }) => neededResolution !== undefined && trackingBandwidth !== undefined,
      ),
  },
  { pace: 'scan', what: 'hazard that grows with the pace of scanning', isIn: hasAcceleratedHazard },
  {
    pace: 'hands',
    what: 'mishandling that grows with the pace of hands',
    isIn: ({ workflows }, workflow) => {
      const { probability, paceExponent } = workflows[workflow].mishandling;
      return probability > 0 && paceExponent > 0;
    },
  },
  {
    pace: 'hands',
    what: 'manual step that fails more often in a hurry',
    isIn: ({ workflows }, workflow) =>
      (workflows[workflow].haste?.successExponent ?? 0) > 0 &&
      Object.values(workflows[workflow].steps).some(({ manual, success }) => manual && success < 1),
  },
  {
    pace: 'hands',
    what: 'hazard at the approach that grows with the pace of hands',
    isIn: (settings) =>
      hasHazard(settings, ({ acceleration, per }) => per === 'approach' && (acceleration.hands ?? 0) > 0),
  },
  {
    pace: 'wait',
    what: 'drift after handling or a move with a tolerated displacement',
    isIn: ({ plan, workflows }, workflow) =>
      disturbedRate(workflows[workflow].drift) > 0 &&
      plan.passes.some(({ driftTolerance }) => driftTolerance !== undefined),
  },
];

/** Names of what makes each pace costly in a strategy's settings; none where haste is free. */
export type HasteCosts = Readonly<Record<Pace, readonly string[]>>;

/** What in the settings of a strategy makes a quicker pace worse. */
export function hasteCosts(settings: Scenario, workflow: WorkflowName): HasteCosts {
  const present = COSTS.filter(({ isIn }) => isIn(settings, workflow));
  const of = (wanted: Pace) => present.filter(({ pace }) => pace === wanted).map(({ what }) => what);
  return { scan: of('scan'), hands: of('hands'), wait: of('wait') };
}

const PACES: readonly Pace[] = ['scan', 'hands', 'wait'];

const HASTE: Readonly<Record<Pace, string>> = {
  scan: 'faster scanning',
  hands: 'quicker hands',
  wait: 'shorter waits',
};

/**
 * Says in one sentence that a quicker pace costs nothing in the settings it is said of; empty where it costs something.
 * @param where of what it is said, such as `in this scenario`
 */
export function freeHasteText(costs: HasteCosts, pace: Pace, where: string): string {
  if (costs[pace].length > 0) return '';
  const lacking = COSTS.filter((cost) => cost.pace === pace).map(({ what }) => `no ${what}`);
  return `Nothing ${where} makes ${HASTE[pace]} worse (${listed(lacking)}), so haste looks better here than it is.`;
}

/** What strategies at different paces are compared without: one sentence a pace, of those that hurry for nothing. */
export function freeHasteBetween(strategies: readonly Strategy[]): readonly string[] {
  return freeHaste(strategies, (pace, { settings }) =>
    strategies.some((other) => settings.pace[pace] > other.settings.pace[pace]),
  );
}

/** The same of strategies whose paces a study varies; `paths` are those of what is varied. */
export function freeHasteAlong(paths: readonly string[], strategies: readonly Strategy[]): readonly string[] {
  return freeHaste(strategies, (pace) => paths.some((path) => `.${path}`.endsWith(`.pace.${pace}`)));
}

function freeHaste(
  strategies: readonly Strategy[],
  isVaried: (pace: Pace, strategy: Strategy) => boolean,
): readonly string[] {
  const costs = strategies.map(({ settings, workflow }) => hasteCosts(settings, workflow));
  return PACES.flatMap((pace) => {
    const free = strategies.filter((each, i) => isVaried(pace, each) && costs[i][pace].length === 0);
    if (free.length === 0) return [];
    return [freeHasteText(costs[strategies.indexOf(free[0])], pace, `in ${listed(free.map(quoted))}`)];
  });
}

/** A scan in 1/pace of the time has the exposure of pace^α per image, and of pace^(α − 1) where that is counted in hours. */
function hasAcceleratedHazard(settings: Scenario): boolean {
  return hasHazard(settings, ({ acceleration, per }) => acceleration.pace > (per === 'hour' ? 1 : 0));
}

/** Whether a tip that the plan uses has a hazard like this that its passes feel. */
function hasHazard({ plan, tips }: Scenario, isLike: (hazard: Hazard) => boolean): boolean {
  const isFelt = ({ cause }: Hazard, passes: Scenario['plan']['passes']) =>
    !declaredOf(cause).effect.uncoats || passes.some(({ signal }) => signal === 'electrical');
  return Object.entries(tips).some(([name, { hazards }]) => {
    const passes = plan.passes.filter(({ tip }) => tip === name);
    return passes.length > 0 && hazards.some((hazard) => isFelt(hazard, passes) && isLike(hazard));
  });
}

/** Rate (nm/s) that disturbances start, all kinds together. */
function disturbedRate(drift: Scenario['workflows'][WorkflowName]['drift']): number {
  return (drift?.handling?.rate ?? 0) + (drift !== undefined && 'move' in drift ? (drift.move?.rate ?? 0) : 0);
}
