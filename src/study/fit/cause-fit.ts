import type { ExposureUnit } from '../../scenario/exposure.js';
import type { Cause } from '../../scenario/schema/scenario.js';
import { compareLaws } from '../../survival/compare-laws.js';
import { totalExposure } from '../../survival/few-events.js';
import { type LifeFit, meanOf } from '../../survival/fit-life.js';
import { kaplanMeier } from '../../survival/kaplan-meier.js';
import type { FittedLaw } from '../../survival/laws.js';
import { nelsonAalen } from '../../survival/nelson-aalen.js';
import { asNoticed, forCause, isInterval } from '../../survival/observation.js';
import { type IntervalCurve, turnbull } from '../../survival/turnbull.js';
import { accelerationOf, referenceLoad } from './acceleration.js';
import { chooseLaw } from './choose-law.js';
import { goodnessOf, type Draws } from './goodness.js';
import { hazardFrom } from './hazard.js';
import { livesIn } from './lives.js';
import { medianOf } from './median.js';
import type { TipRow } from './rows.js';
import type { CauseFit, CurvePoint, LawFit } from './results.js';
import { suspicionBounds } from './suspicion.js';
import { lawVerdict, notFittedBecause, warningsOf } from './words.js';

/** What of an analysis is the user's choice. */
export interface CauseSettings {
  readonly kind: string;
  readonly cause: Cause;
  readonly per: ExposureUnit;
  /** In place of the law by AIC. */
  readonly law: FittedLaw | null;
  readonly level: number;
  /** Samples of the parametric bootstrap; 0 for none. */
  readonly samples: number;
  /** A uniform number for each sample and index. */
  readonly draws: Draws;
}

/** The whole analysis of one cause for tips of one kind; the other causes censor. */
export function fitCause(rows: readonly TipRow[], settings: CauseSettings): CauseFit {
  const { kind, cause, per, level } = settings;
  const lives = livesIn(rows, per);
  const observations = forCause(lives, cause);
  const noticed = forCause(asNoticed(lives), cause);
  const comparison = compareLaws(observations, level);
  const choice = chooseLaw(comparison, (fit) => accelerationOf(fit, lives, cause, level), settings.law);
  const chosen = choice?.fit ?? null;
  const acceleration = choice?.acceleration ?? null;
  const intervals = observations.filter(isInterval).length;
  const base = {
    kind,
    cause,
    per,
    tips: observations.length,
    events: comparison.events,
    intervals,
    late: observations.filter(({ entry }) => entry > 0).length,
    leftOut: rows.length - lives.length,
    exposure: totalExposure(observations),
    constantHazard: comparison.constantHazard,
    chosen: choice === null ? null : { law: choice.fit.law, how: choice.how },
    median: chosen === null ? null : medianOf(chosen, observations),
    suspicion: suspicionBounds(rows, per, cause, chosen?.law ?? 'exponential', level),
  };
  return {
    ...base,
    acceleration: acceleration?.found ?? null,
    survival: pointsOf(kaplanMeier(noticed, level), ({ survival }) => survival),
    turnbull: intervals === 0 ? null : curveOf(turnbull(observations)),
    cumulativeHazard: pointsOf(nelsonAalen(noticed, level), ({ cumulativeHazard }) => cumulativeHazard),
    laws: comparison.ranked.map((fit) => lawFit(fit, comparison.ranked[0])),
    notFitted: comparison.failed.map(({ law, reason }) => ({ law, reason: notFittedBecause(reason) })),
    goodness: chosen === null ? null : goodnessOf(chosen, observations, settings),
    hazard: chosen === null ? null : hazardFrom(cause, per, chosen, acceleration, referenceLoad(lives)),
    verdict: lawVerdict(comparison, choice, cause),
    warnings: warningsOf({ ...base, hasSound: rows.some(({ sound }) => sound[per] !== undefined), rows }),
  };
}

function lawFit(fit: LifeFit, best: LifeFit): LawFit {
  const { law, parameters, logLikelihood, aic } = fit;
  return {
    law,
    parameters: parameters.map(({ name, value, low, high }) => ({ name, value, low, high })),
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
