import type { ExposureUnit } from '../../scenario/exposure.js';
import type { Cause } from '../../scenario/schema/scenario.js';
import { compareDistributions } from '../../survival/compare-distributions.js';
import { totalExposure } from '../../survival/few-events.js';
import { type LifeFit, meanOf } from '../../survival/fit-life.js';
import { kaplanMeier } from '../../survival/kaplan-meier.js';
import { type FittedDistribution, toFit } from '../../survival/distributions.js';
import { nelsonAalen } from '../../survival/nelson-aalen.js';
import { asNoticed, forCause, isInterval } from '../../survival/observation.js';
import type { Posterior } from '../../survival/posterior.js';
import { type IntervalCurve, turnbull } from '../../survival/turnbull.js';
import { accelerationOf, referenceLoad } from './acceleration.js';
import { chooseDistribution } from './choose-distribution.js';
import { goodnessOf, type Draws } from './goodness.js';
import { hazardFrom } from './hazard.js';
import { livesIn } from './lives.js';
import { medianOf } from './median.js';
import { hazardAfter, type HazardPrior, updated } from './prior.js';
import type { TipRow } from './rows.js';
import type { CauseFit, CurvePoint, DistributionFit, PosteriorLife } from './results.js';
import { suspicionBounds } from './suspicion.js';
import { distributionVerdict, notFittedBecause, warningsOf } from './words.js';

/** One event alone says so little that no hazard comes of it, unless a range was held before (common practice, no source). */
const FEWEST_EVENTS = 2;

/** What of an analysis is the user's choice. */
export interface CauseSettings {
  readonly kind: string;
  readonly cause: Cause;
  readonly per: ExposureUnit;
  /** In place of the distribution by AIC. */
  readonly distribution: FittedDistribution | null;
  /** What a scenario holds of the life in this unit; null where it holds nothing. */
  readonly prior: HazardPrior | null;
  readonly level: number;
  /** Samples of the parametric bootstrap; 0 for none. */
  readonly samples: number;
  /** A uniform number for each sample and index. */
  readonly draws: Draws;
}

/** The whole analysis of one cause for tips of one kind; the other causes censor. */
export function fitCause(rows: readonly TipRow[], settings: CauseSettings): CauseFit {
  const { kind, cause, per, level, prior } = settings;
  const lives = livesIn(rows, per);
  const observations = forCause(lives, cause);
  const noticed = forCause(asNoticed(lives), cause);
  const comparison = compareDistributions(observations, level);
  const choice = chooseDistribution(
    comparison,
    (fit) => accelerationOf(fit, lives, cause, level),
    settings.distribution,
  );
  const chosen = choice?.fit ?? null;
  const acceleration = choice?.acceleration ?? null;
  const posterior =
    prior === null ? null : updated(prior, observations, comparison, choice, settings.distribution, level);
  const exposure = totalExposure(observations);
  const intervals = observations.filter(isInterval).length;
  const hasHazard = posterior !== null || (chosen !== null && comparison.events >= FEWEST_EVENTS);
  const base = {
    kind,
    cause,
    per,
    tips: observations.length,
    events: comparison.events,
    intervals,
    late: observations.filter(({ entry }) => entry > 0).length,
    leftOut: rows.length - lives.length,
    exposure,
    constantHazard: within(comparison.constantHazard, exposure),
    chosen: choice === null ? null : { distribution: choice.fit.distribution, how: choice.how },
    median: chosen === null ? null : within(medianOf(chosen, observations), exposure),
    suspicion: suspicionBounds(rows, per, cause, chosen?.distribution ?? 'exponential', level),
  };
  return {
    ...base,
    acceleration: acceleration?.found ?? null,
    survival: pointsOf(kaplanMeier(noticed, level), ({ survival }) => survival),
    turnbull: intervals === 0 ? null : curveOf(turnbull(observations)),
    cumulativeHazard: pointsOf(nelsonAalen(noticed, level), ({ cumulativeHazard }) => cumulativeHazard),
    distributions: comparison.ranked.map((fit) => distributionFit(fit, comparison.ranked[0], exposure)),
    notFitted: comparison.failed.map(({ distribution, reason }) => ({
      distribution,
      reason: notFittedBecause(reason),
    })),
    goodness: chosen === null ? null : goodnessOf(chosen, observations, settings),
    posterior: prior === null || posterior === null ? null : posteriorLife(posterior, prior),
    hazard:
      prior !== null && posterior !== null
        ? hazardAfter(cause, posterior, prior, referenceLoad(lives))
        : chosen === null || !hasHazard
          ? null
          : hazardFrom(cause, per, chosen, acceleration, referenceLoad(lives)),
    verdict: distributionVerdict(comparison, choice, cause),
    warnings: warningsOf({
      ...base,
      silent: lives.length - observations.length,
      hasHazard,
      hasSound: rows.some(({ sound }) => sound[per] !== undefined),
      rows,
    }),
  };
}

function posteriorLife({ distribution, parameters }: Posterior, prior: HazardPrior): PosteriorLife {
  return {
    distribution,
    parameters: parameters.map(({ name, value, low, high }, i) => {
      const { low: from, high: to } = prior.parameters[i];
      return { name, value, low, high, before: { low: from, high: to } };
    }),
  };
}

/**
 * An interval of a life, its upper end left open where it lies beyond all the use that was watched: no log says that a life is no
 * longer than that (common practice, no source).
 */
function within<Told extends { readonly high: number | null }>(interval: Told, exposure: number): Told {
  return interval.high !== null && interval.high > exposure ? { ...interval, high: null } : interval;
}

function distributionFit(fit: LifeFit, best: LifeFit, exposure: number): DistributionFit {
  const { distribution, parameters, logLikelihood, aic } = fit;
  return {
    distribution,
    parameters: parameters.map(({ name, value, low, high }, i) => {
      const interval = { name, value, low, high };
      return toFit(distribution).parameters[i].isExposure ? within(interval, exposure) : interval;
    }),
    logLikelihood,
    aic,
    aicAboveBest: aic - best.aic,
    mean: meanOf(fit),
  };
}

function pointsOf<Step extends { readonly time: number; readonly low: number | null; readonly high: number | null }>(
  steps: readonly Step[],
  value: (step: Step) => number,
): readonly CurvePoint[] {
  return steps.map((step) => ({ exposure: step.time, value: value(step), low: step.low, high: step.high }));
}

/** What is left after each cell, at the cell's end: inside a cell nobody knows. */
function curveOf({ cells }: IntervalCurve): readonly CurvePoint[] {
  let left = 1;
  return cells.flatMap(({ to, mass }) => {
    left = Math.max(0, left - mass);
    return to < Infinity ? [{ exposure: to, value: left, low: null, high: null }] : [];
  });
}
