import {
  FEW_EVENTS,
  type DistributionComparison,
  type DistributionVerdict,
  NOT_TOLD_APART,
} from '../../survival/compare-distributions.js';
import type { LifeFit } from '../../survival/fit-life.js';
import type { FittedDistribution } from '../../survival/distributions.js';
import type { FoundAcceleration } from './acceleration.js';

/** The distribution that goes into the scenario. */
export interface DistributionChoice {
  /** Without acceleration. */
  readonly fit: LifeFit;
  /** With it, taken or not; null where nothing varies, or too few events say what it does. */
  readonly acceleration: FoundAcceleration | null;
  /** Why this one, for the source of the hazard. */
  readonly how: string;
}

/**
 * The distribution asked for; else the one that the comparison offers. Where load and pace make lives that differ, the distributions are compared
 * with that allowed for, since a mixture of loads looks like another distribution.
 */
export function chooseDistribution(
  { ranked, verdict, events }: DistributionComparison,
  accelerated: (fit: LifeFit) => FoundAcceleration | null,
  asked: FittedDistribution | null,
): DistributionChoice | null {
  if (ranked.length === 0) return null;
  const few = events < FEW_EVENTS;
  const tried = ranked.map((fit) => ({ fit, acceleration: few ? null : accelerated(fit) }));
  const plain = tried.find(({ fit }) => fit.distribution === (asked ?? verdict.offered)) ?? tried[0];
  const how = chosenBecause(verdict, asked);
  if (asked !== null) return { ...plain, how };
  const aicOf = ({ fit, acceleration }: (typeof tried)[number]) => fit.aic - (acceleration?.found.aicGain ?? 0);
  const [best] = [...tried].sort((a, b) => aicOf(a) - aicOf(b));
  if (best.acceleration?.found.isTaken !== true || aicOf(best) >= ranked[0].aic) return { ...plain, how };
  const simpler = tried.find(
    (each) =>
      each.acceleration?.found.isTaken === true &&
      each.fit.parameters.length < best.fit.parameters.length &&
      aicOf(each) - aicOf(best) <= NOT_TOLD_APART,
  );
  return simpler === undefined
    ? { ...best, how: 'distribution by AIC with load and pace' }
    : { ...simpler, how: `simplest distribution within ${NOT_TOLD_APART} of the least AIC with load and pace` };
}

/** How the distribution came to be the one, for the source of a hazard. */
function chosenBecause({ reason }: DistributionVerdict, asked: FittedDistribution | null): string {
  if (asked !== null) return 'distribution as asked for';
  switch (reason) {
    case 'best':
      return 'distribution by AIC';
    case 'simplest-of-those-not-told-apart':
      return 'simplest distribution within 2 of the least AIC';
    case 'few-events':
      return `distribution without shape, as there are fewer than ${FEW_EVENTS} events`;
    case 'no-events':
    case 'nothing-fits':
      return 'no distribution';
  }
}
