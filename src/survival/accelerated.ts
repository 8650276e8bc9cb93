import { exp } from '../chance/elementary.js';
import { fromFree } from './free.js';
import type { FittedParameter } from './fit-life.js';
import { type FittedDistribution, toFit } from './distributions.js';
import { alike, logLikelihood } from './likelihood.js';
import { covarianceAt, maximise, type Objective } from './maximise.js';
import { assertLives, isEvent, type Observation } from './observation.js';
import { profileEnds } from './profile.js';
import { valuesOf, withinReach } from './search.js';
import { startOf } from './start.js';

/** A life at one pace and load. */
export interface AcceleratedObservation extends Observation {
  /** ln of the pace over the usual one. */
  readonly lnPace: number;
  /** ln of the load over the reference load. */
  readonly lnLoad: number;
}

/** What makes exposure count for more: the exponents of pace (α) and load (β), as scenario files know them. */
export type Accelerator = 'pace' | 'load';

/** A distribution and what speeds it up, fitted together. */
export interface AcceleratedFit {
  readonly converged: true;
  readonly distribution: FittedDistribution;
  /** Of the distribution at the usual pace and the reference load, in the order of scenario files. */
  readonly parameters: readonly FittedParameter[];
  /** α of pace and β of load, those that could be fitted; profile-likelihood intervals, as of the parameters. */
  readonly exponents: readonly (FittedParameter & { readonly name: Accelerator })[];
  /** Accelerators of which the log knows only one value, so that their exponents are left at 0. */
  readonly unvaried: readonly Accelerator[];
  readonly logLikelihood: number;
  readonly aic: number;
  /** Free parameters of the distribution, then the exponents. */
  readonly free: readonly number[];
  /** Of the free parameters and the exponents. */
  readonly covariance: readonly (readonly number[])[];
  readonly events: number;
  readonly observations: number;
  readonly level: number;
}

export interface NoAcceleratedFit {
  readonly converged: false;
  readonly distribution: FittedDistribution;
  /** No event; pace and load the same for all; or no top of the likelihood, as where pace and load go together or one pace has no event. */
  readonly reason: 'no-events' | 'nothing-varies' | 'no-finite-maximum';
  readonly events: number;
  readonly observations: number;
}

const ACCELERATORS: Readonly<Record<Accelerator, (one: AcceleratedObservation) => number>> = {
  pace: ({ lnPace }) => lnPace,
  load: ({ lnLoad }) => lnLoad,
};

/** Exponents past this, either way, are a likelihood that rises for ever. */
const LARGEST_EXPONENT = 30;

/** Values closer than this are one. */
const SAME = 1e-9;

function varies(values: readonly number[]): boolean {
  return values.some((value) => Math.abs(value - values[0]) > SAME);
}

/**
 * Log-likelihood of lives whose exposure counts exp(Σ exponent · covariate) times: that of the exposures so counted, and for events known
 * exactly ln of that factor too, which the density takes from being per unit of real exposure.
 */
function objectiveOf(
  distribution: FittedDistribution,
  rows: readonly AcceleratedObservation[],
  names: readonly Accelerator[],
): Objective {
  const { parameters } = toFit(distribution);
  return (numbers) => {
    const exponents = numbers.slice(parameters.length);
    let jacobian = 0;
    const counted = rows.map((row) => {
      const logFactor = names.reduce((sum, name, i) => sum + exponents[i] * ACCELERATORS[name](row), 0);
      const factor = exp(logFactor);
      const from = row.from * factor;
      if (row.from === row.to) {
        jacobian += logFactor;
        return { entry: row.entry * factor, from, to: from };
      }
      return { entry: row.entry * factor, from, to: row.to * factor };
    });
    return logLikelihood(toFit(distribution), valuesOf(toFit(distribution), numbers), alike(counted)) + jacobian;
  };
}

/**
 * Accelerated-failure-time regression: exposure grows by pace^α · (load / reference)^β per real unit, which makes ln T fall by α ln pace + β
 * ln(load / reference) (J. F. Lawless, Statistical Models and Methods for Lifetime Data, 2nd ed. 2003, chapter 6).
 * @param level of confidence, in (0, 1)
 * @throws RangeError for an observation that is no life
 */
export function fitAccelerated(
  name: FittedDistribution,
  rows: readonly AcceleratedObservation[],
  level: number,
): AcceleratedFit | NoAcceleratedFit {
  assertLives(rows);
  const distribution = toFit(name);
  const events = rows.filter(isEvent).length;
  const none = (reason: NoAcceleratedFit['reason']): NoAcceleratedFit => ({
    converged: false,
    distribution: name,
    reason,
    events,
    observations: rows.length,
  });
  if (events === 0) return none('no-events');
  const all: readonly Accelerator[] = ['pace', 'load'];
  const names = all.filter((one) => varies(rows.map(ACCELERATORS[one])));
  if (names.length === 0) return none('nothing-varies');
  const objective = objectiveOf(name, rows, names);
  const start = [...startOf(distribution, rows), ...names.map(() => 0)];
  const distributionWithin = withinReach(distribution, start);
  const within = (numbers: readonly number[]) =>
    distributionWithin(numbers) &&
    numbers.slice(distribution.parameters.length).every((one) => Math.abs(one) < LARGEST_EXPONENT);
  const peak = maximise(objective, start, within);
  const covariance = peak.converged ? covarianceAt(objective, peak) : null;
  if (covariance === null) return none('no-finite-maximum');
  const ends = peak.at.map((_, i) => profileEnds(objective, peak, i, covariance, level));
  return {
    converged: true,
    distribution: name,
    parameters: distribution.parameters.map((parameter, i) => {
      const shown = (end: number | null) => (end === null ? null : fromFree(parameter, end));
      const value = fromFree(parameter, peak.at[i]);
      return { name: parameter.name, value, low: shown(ends[i].low), high: shown(ends[i].high) };
    }),
    exponents: names.map((one, i) => {
      const place = distribution.parameters.length + i;
      return { name: one, value: peak.at[place], ...ends[place] };
    }),
    unvaried: all.filter((one) => !names.includes(one)),
    logLikelihood: peak.value,
    aic: 2 * peak.at.length - 2 * peak.value,
    free: peak.at,
    covariance,
    events,
    observations: rows.length,
    level,
  };
}
