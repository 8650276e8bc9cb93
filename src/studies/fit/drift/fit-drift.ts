import { median } from 'simple-statistics';
import { exp, pow } from '../../../chance/elementary.js';
import { normalQuantile } from '../../../chance/normal.js';
import { DISTURBANCE_KINDS, type DisturbanceKind } from '../../../probe/drift.js';
import { DRIFT_PARAMETERS, type DriftFit, fitDrift, settledRates } from '../../../survival/drift-fit.js';
import type { DriftEvent, DriftForm } from '../../../survival/drift-likelihood.js';
import { type Making, provenanceOf } from '../../../analysis/about.js';
import { aboutLog } from '../about-log.js';
import { roundedAll } from '../hazard.js';
import type { Interval, Uncertainty } from '../results.js';
import type { DriftReading, ReadDrift } from './read-drift.js';
import {
  DRIFT_FIT_FORMAT,
  type DriftCurvePoint,
  type DriftFitSummary,
  type DriftKindFit,
  type DriftParameters,
  type OverDisturbances,
  type RateRead,
  type SettledDrift,
  type WorkflowName,
} from './results.js';
import { driftWarnings } from './warnings.js';

export interface DriftFitOptions extends Making {
  readonly date: string | null;
  /** Seconds. */
  readonly settling: number;
  readonly workflows: readonly WorkflowName[];
  readonly onProgress?: (progress: { readonly phase: string; readonly done: number; readonly of: number }) => void;
}

const LEVEL = 0.95;

/** Readings after one disturbance, in order of time. */
interface Disturbed extends DriftEvent {
  readonly name: string;
}

/** Fits the drift of a table that was read, kind by kind. */
export function fitDriftTable(log: ReadDrift, options: DriftFitOptions): DriftFitSummary {
  const present = DISTURBANCE_KINDS.filter((kind) => log.rows.some((row) => row.kind === kind));
  const kinds = present.map((kind, done) => {
    options.onProgress?.({ phase: 'fits', done, of: present.length });
    const rows = log.rows.filter((row) => row.kind === kind);
    return fitKind(kind, eventsOf(rows), log.form, options.settling);
  });
  return {
    format: DRIFT_FIT_FORMAT,
    formatVersion: 2,
    ...provenanceOf(options),
    log: aboutLog(log, options),
    form: log.form,
    confidence: { level: LEVEL },
    settling: options.settling,
    workflows: options.workflows,
    kinds,
    steadyFrom: steadyFrom(kinds),
    warnings: log.saysKind
      ? []
      : ['the table does not say what disturbed, in a column `kind`: all is taken as handling'],
  };
}

function eventsOf(rows: readonly DriftReading[]): readonly Disturbed[] {
  return [...new Set(rows.map(({ disturbance }) => disturbance))].map((name) => {
    const mine = rows.filter(({ disturbance }) => disturbance === name).sort((a, b) => a.time - b.time);
    const errors = mine.flatMap(({ error }) => error ?? []);
    return {
      name,
      times: mine.map(({ time }) => time),
      values: mine.map(({ value }) => value),
      ...(errors.length === 0 ? {} : { errors }),
    };
  });
}

function fitKind(kind: DisturbanceKind, events: readonly Disturbed[], form: DriftForm, settling: number): DriftKindFit {
  const fit = fitDrift(events, form, LEVEL);
  const parameters = fit.converged ? parametersOf(fit) : null;
  const times = events.flatMap((event) => event.times);
  const known = {
    kind,
    disturbances: fit.events,
    readings: fit.readings,
    parameters,
    notTold: fit.converged ? (['geometricSd', 'steady'] as const).filter((name) => !fit.parameters[name].isTold) : [],
    uncertainty: fit.converged ? uncertaintyOf(fit) : { of: [], covariance: [] },
    reason: fit.converged ? null : fit.reason,
    logLikelihood: fit.converged ? fit.logLikelihood : null,
    settled: settledOf(events, form, settling),
    rates: events.flatMap((event) => ratesOf(event, form)),
    curve: parameters === null ? [] : curveOf(parameters, Math.max(...times)),
  };
  return {
    ...known,
    warnings: driftWarnings(known, {
      alone: events.length - fit.events,
      falling: events.filter((event) => isFalling(event, form)).map(({ name }) => name),
      ...{ first: Math.min(...times), last: Math.max(...times) },
    }),
  };
}

function parametersOf({ parameters }: DriftFit): DriftParameters {
  const interval = (name: keyof DriftParameters): Interval => {
    const { value, low, high } = parameters[name];
    return { value, low, high };
  };
  return {
    rate: interval('rate'),
    geometricSd: interval('geometricSd'),
    decay: interval('decay'),
    steady: interval('steady'),
    error: interval('error'),
  };
}

/** Of those that some value is known of: what is none has no logarithm to be uncertain of. */
function uncertaintyOf({ covariance }: DriftFit): Uncertainty {
  const known = DRIFT_PARAMETERS.flatMap((name, index) =>
    name === 'error' || !(covariance[index][index] > 0) ? [] : [{ name, index }],
  );
  return {
    of: known.map(({ name }) => name),
    covariance: roundedAll(known.map((row) => known.map((column) => covariance[row.index][column.index]))),
  };
}

/** ISO 11039 gives the terms alone; how they are computed here is said in the report. */
function settledOf(events: readonly Disturbed[], form: DriftForm, settling: number): SettledDrift | null {
  const rates = settledRates(events, form, settling);
  if (rates.length === 0) return null;
  const over = (values: readonly number[]): OverDisturbances => ({
    median: median([...values]),
    least: Math.min(...values),
    greatest: Math.max(...values),
  });
  return {
    disturbances: rates.length,
    typicalAverage: over(rates.map(({ average }) => average)),
    typicalMaximum: over(rates.map(({ greatest }) => greatest)),
  };
}

function ratesOf({ name, times, values }: Disturbed, form: DriftForm): readonly RateRead[] {
  if (form === 'rate') return times.map((time, i) => ({ disturbance: name, time, rate: values[i] }));
  return times.slice(1).map((time, i) => ({
    disturbance: name,
    time: (times[i] + time) / 2,
    rate: (values[i + 1] - values[i]) / (time - times[i]),
  }));
}

function isFalling({ values }: Disturbed, form: DriftForm): boolean {
  const along = form === 'rate' ? values.reduce((sum, value) => sum + value, 0) : (values.at(-1) ?? 0) - values[0];
  return along < 0;
}

const CURVE_POINTS = 80;

function curveOf({ rate, geometricSd, decay, steady }: DriftParameters, last: number): readonly DriftCurvePoint[] {
  const beyond = pow(geometricSd.value, normalQuantile((1 + LEVEL) / 2));
  return Array.from({ length: CURVE_POINTS + 1 }, (_, place) => {
    const time = (last * place) / CURVE_POINTS;
    const decaying = rate.value * exp(-time / decay.value);
    return {
      time,
      value: decaying + steady.value,
      low: decaying / beyond + steady.value,
      high: decaying * beyond + steady.value,
    };
  });
}

/** The kind whose interval of the steady rate is narrowest by its factor; where none tells it, by its upper end. */
function steadyFrom(kinds: readonly DriftKindFit[]): DisturbanceKind | null {
  const known = kinds.flatMap(({ kind, parameters, notTold }) =>
    parameters === null ? [] : [{ kind, isTold: !notTold.includes('steady'), ...parameters.steady }],
  );
  const width = ({ isTold, low, high }: (typeof known)[number]) => (high ?? Infinity) / (isTold ? (low ?? 1) : 1);
  const told = known.filter(({ isTold }) => isTold);
  return (
    (told.length > 0 ? told : known).reduce<(typeof known)[number] | null>(
      (best, each) => (best === null || width(each) < width(best) ? each : best),
      null,
    )?.kind ?? null
  );
}
