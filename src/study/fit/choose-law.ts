import { FEW_EVENTS, type LawComparison, type LawVerdict, NOT_TOLD_APART } from '../../survival/compare-laws.js';
import type { LifeFit } from '../../survival/fit-life.js';
import type { FittedLaw } from '../../survival/laws.js';
import type { FoundAcceleration } from './acceleration.js';

/** The law that goes into the scenario. */
export interface LawChoice {
  /** Without acceleration. */
  readonly fit: LifeFit;
  /** With it, taken or not; null where nothing varies, or too few events say what it does. */
  readonly acceleration: FoundAcceleration | null;
  /** Why this one, for the source of the hazard. */
  readonly how: string;
}

/**
 * The law asked for; else the one that the comparison offers. Where load and pace make lives that differ, the laws are compared
 * with that allowed for, since a mixture of loads looks like another law.
 */
export function chooseLaw(
  { ranked, verdict, events }: LawComparison,
  accelerated: (fit: LifeFit) => FoundAcceleration | null,
  asked: FittedLaw | null,
): LawChoice | null {
  if (ranked.length === 0) return null;
  const few = events < FEW_EVENTS;
  const tried = ranked.map((fit) => ({ fit, acceleration: few ? null : accelerated(fit) }));
  const plain = tried.find(({ fit }) => fit.law === (asked ?? verdict.offered)) ?? tried[0];
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
    ? { ...best, how: 'law by AIC with load and pace' }
    : { ...simpler, how: `simplest law within ${NOT_TOLD_APART} of the least AIC with load and pace` };
}

/** How the law came to be the one, for the source of a hazard. */
function chosenBecause({ reason }: LawVerdict, asked: FittedLaw | null): string {
  if (asked !== null) return 'law as asked for';
  switch (reason) {
    case 'best':
      return 'law by AIC';
    case 'simplest-of-those-not-told-apart':
      return 'simplest law within 2 of the least AIC';
    case 'few-events':
      return `law without shape, as there are fewer than ${FEW_EVENTS} events`;
    case 'no-events':
    case 'nothing-fits':
      return 'no law';
  }
}
