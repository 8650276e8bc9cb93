import { exponentialInterval, type MeanInterval, totalExposure } from './few-events.js';
import { fitLife, type LifeFit, type NoFit } from './fit-life.js';
import { FITTED, type FittedDistribution } from './distributions.js';
import { assertLives, isEvent, isInterval, type Observation } from './observation.js';

/** Below this number of events a shape is hardly known, and the distribution with none is offered (common practice, no source). */
export const FEW_EVENTS = 5;

/** Distributions closer than this in Akaike's criterion show no clear difference (K. P. Burnham and D. R. Anderson, Model Selection, 2nd ed. 2002, section 2.6). */
export const NOT_TOLD_APART = 2;

/**
 * What the log would have to hold more of: events of this cause; closer checks, so that they are known to less wide an interval; or tips that
 * are not taken off before one.
 */
export type Missing = 'events' | 'times-of-events' | 'lives-run-to-an-event';

/** Why a distribution is offered. */
export type OfferReason = 'no-events' | 'few-events' | 'best' | 'simplest-of-those-not-told-apart' | 'nothing-fits';

/** What the comparison says. */
export interface DistributionVerdict {
  /** Least in AIC; null where nothing could be fitted. */
  readonly best: FittedDistribution | null;
  /** All within NOT_TOLD_APART of the best, it among them, in order of AIC. */
  readonly notToldApart: readonly FittedDistribution[];
  /** The distribution to go on with. */
  readonly offered: FittedDistribution | null;
  readonly reason: OfferReason;
  /** What would help most, or null where nothing is badly lacking. */
  readonly missing: Missing | null;
}

export interface DistributionComparison {
  readonly events: number;
  readonly observations: number;
  /** Exposure watched, all tips together. */
  readonly exposure: number;
  /** Fits in order of AIC. */
  readonly ranked: readonly LifeFit[];
  /** Distributions that could not be fitted, and why. */
  readonly failed: readonly NoFit[];
  /** Mean life if the hazard were constant, by chi-square: holds for few events, and gives a lower end for none. */
  readonly constantHazard: MeanInterval;
  readonly verdict: DistributionVerdict;
}

/** More than this share censored leaves the late part of every distribution to the distribution alone (common practice, no source). */
const MOSTLY_CENSORED = 0.8;

/** An interval is wide where it is more than this share of its end. */
const WIDE = 0.5;

function missingOf(observations: readonly Observation[], toldApart: boolean): Missing | null {
  const events = observations.filter(isEvent);
  if (events.length < FEW_EVENTS) return 'events';
  const wide = events.filter((one) => isInterval(one) && one.to - one.from > WIDE * one.to);
  if (wide.length > events.length / 2) return 'times-of-events';
  if (observations.length - events.length > MOSTLY_CENSORED * observations.length) return 'lives-run-to-an-event';
  return toldApart ? null : 'events';
}

/**
 * Fits all distributions and ranks them by Akaike's information criterion.
 * @param level of confidence of the intervals, in (0, 1)
 * @throws RangeError for an observation that is no life
 */
export function compareDistributions(observations: readonly Observation[], level: number): DistributionComparison {
  assertLives(observations);
  const events = observations.filter(isEvent).length;
  const exposure = totalExposure(observations);
  const tried = FITTED.map((distribution) => fitLife(distribution, observations, level));
  const ranked = tried.filter((fit) => fit.converged).sort((a, b) => a.aic - b.aic);
  return {
    events,
    observations: observations.length,
    exposure,
    ranked,
    failed: tried.filter((fit) => !fit.converged),
    constantHazard: exponentialInterval(exposure, events, level),
    verdict: verdictOf(ranked, observations, events),
  };
}

function verdictOf(
  ranked: readonly LifeFit[],
  observations: readonly Observation[],
  events: number,
): DistributionVerdict {
  if (ranked.length === 0) {
    const reason = events === 0 ? 'no-events' : 'nothing-fits';
    return { best: null, notToldApart: [], offered: null, reason, missing: 'events' };
  }
  const [best] = ranked;
  const close = ranked.filter(({ aic }) => aic - best.aic <= NOT_TOLD_APART);
  const notToldApart = close.map(({ distribution }) => distribution);
  const missing = missingOf(observations, close.length === 1);
  const verdict = { best: best.distribution, notToldApart, missing };
  if (events < FEW_EVENTS && ranked.some(({ distribution }) => distribution === 'exponential')) {
    return { ...verdict, offered: 'exponential', reason: 'few-events' };
  }
  const simplest = close.find((fit) => fit.parameters.length < best.parameters.length);
  if (simplest !== undefined) {
    return { ...verdict, offered: simplest.distribution, reason: 'simplest-of-those-not-told-apart' };
  }
  return { ...verdict, offered: best.distribution, reason: 'best' };
}
