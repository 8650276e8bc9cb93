import { exp, ln } from '../chance/elementary.js';
import {
  decayingSums,
  type DriftEvent,
  type DriftForm,
  type DriftLaw,
  eventLogLikelihood,
  prepared,
  type PreparedEvent,
} from './drift-likelihood.js';
import { type Reach, SPREAD_REACH, topOf } from './vanishing.js';

/** First rate right after a disturbance (nm/s, median), its geometric standard deviation, decay (s), steady rate (nm/s), error of a reading. */
export const DRIFT_PARAMETERS = ['rate', 'geometricSd', 'decay', 'steady', 'error'] as const;
export type DriftParameter = (typeof DRIFT_PARAMETERS)[number];

/** A value with the ends of its interval; an end that the readings do not set is null, one that goes on to none is that. */
export interface DriftEstimate {
  readonly value: number;
  readonly low: number | null;
  readonly high: number | null;
  /** Whether the readings tell it from none: a geometric SD of 1, a steady rate of 0. */
  readonly isTold: boolean;
}

export interface DriftFit {
  readonly converged: true;
  /** With profile-likelihood intervals. */
  readonly parameters: Readonly<Record<DriftParameter, DriftEstimate>>;
  readonly logLikelihood: number;
  /** Of ln rate, ln(ln geometricSd), ln decay, ln steady, ln error; nothing but zeros for one whose best value is none. */
  readonly covariance: readonly (readonly number[])[];
  readonly events: number;
  readonly readings: number;
}

export interface NoDriftFit {
  readonly converged: false;
  /** Fewer than three disturbances with enough readings; no rate that falls; or no top of the likelihood. */
  readonly reason: 'too-few-events' | 'no-decay-seen' | 'no-finite-maximum';
  readonly events: number;
  readonly readings: number;
}

/** A geometric SD over disturbances is hardly told from a single one by fewer (common practice, no source). */
const FEWEST_EVENTS = 3;

/** A steady rate below this share of the first is none. */
const NO_STEADY = 1e-4;
const FARTHEST = 12;

function lawOf([logRate, geometricSd, decay, steady, error]: readonly number[]): DriftLaw {
  return { logRate, rateSd: exp(geometricSd), decay: exp(decay), steady: exp(steady), error: exp(error) };
}

interface Rough {
  readonly decay: number;
  readonly steady: number;
  readonly rates: readonly number[];
  readonly squares: number;
}

/** Least squares with a first rate of its own for each disturbance and one steady rate, at a decay that is given. */
function roughAt(events: readonly PreparedEvent[], decay: number): Rough {
  const all = events.map((event) => ({ ...event, by: decayingSums(event, decay) }));
  let [across, along] = [0, 0];
  for (const { steadyValues, steadySquares, by } of all) {
    const share = by.steady / by.squares;
    across += steadyValues - share * by.values;
    along += steadySquares - share * by.steady;
  }
  const steady = Math.max(0, across / along);
  const rates = all.map(({ by }) => (by.values - steady * by.steady) / by.squares);
  const squares = all.reduce((sum, { valueSquares, steadyValues, steadySquares, by }, i) => {
    const explained =
      rates[i] * (by.values - steady * by.steady) + steady * (2 * steadyValues - steady * steadySquares);
    return sum + valueSquares - explained;
  }, 0);
  return { decay, steady, rates, squares };
}

const DECAYS_TRIED = 40;

/** Rough values at the decay of a grid that goes best with the readings; null where no rate falls. */
function startOf(events: readonly PreparedEvent[]): number[] | null {
  const times = events.flatMap((event) => event.times);
  const longest = Math.max(...times);
  const shortest = longest / 300;
  const tried = Array.from({ length: DECAYS_TRIED }, (_, i) =>
    roughAt(events, shortest * exp((i / (DECAYS_TRIED - 1)) * ln(1000))),
  ).filter(({ squares, rates }) => Number.isFinite(squares) && rates.some((rate) => rate > 0));
  if (tried.length === 0) return null;
  const best = tried.reduce((least, one) => (one.squares < least.squares ? one : least));
  const logs = best.rates.filter((rate) => rate > 0).map(ln);
  const mean = logs.reduce((sum, one) => sum + one, 0) / logs.length;
  const variance = logs.reduce((sum, one) => sum + (one - mean) * (one - mean), 0) / logs.length;
  const steady = Math.max(best.steady, 0.01 * exp(mean));
  // Readings without any error leave nothing but rounding, of either sign.
  const most = events.reduce((sum, { valueSquares }) => sum + valueSquares, 0);
  const error = Math.sqrt(Math.max(best.squares, 1e-12 * most) / times.length);
  if (!(error > 0)) return null;
  return [mean, ln(Math.max(Math.sqrt(variance), 0.05)), ln(best.decay), ln(steady), ln(error)];
}

function valueOf(name: DriftParameter, free: number): number {
  return name === 'geometricSd' ? exp(exp(free)) : exp(free);
}

/** What a value is where it is none, and the end of an interval that goes on to none. */
const NONE: Readonly<Partial<Record<DriftParameter, number>>> = { geometricSd: 1, steady: 0 };

function reachOf(name: DriftParameter, start: number, logRate: number): Reach {
  if (name === 'geometricSd') return SPREAD_REACH;
  const isSteady = name === 'steady';
  return { low: isSteady ? logRate + ln(NO_STEADY) : start - FARTHEST, high: start + FARTHEST, mayVanish: isSteady };
}

/**
 * Fits how drift decays after disturbances to readings of its rate, or of the displacement since the first reading of each: first rates
 * lognormal over disturbances, one decay, one steady rate, normal errors, by maximum likelihood with the first rates integrated out.
 * @param level of confidence, in (0, 1)
 */
export function fitDrift(rows: readonly DriftEvent[], form: DriftForm, level: number): DriftFit | NoDriftFit {
  const events = rows.map((row) => prepared(row, form)).filter(({ count }) => count > 0);
  const readings = events.reduce((sum, { times }) => sum + times.length, 0);
  const none = (reason: NoDriftFit['reason']): NoDriftFit => ({
    converged: false,
    reason,
    events: events.length,
    readings,
  });
  if (events.length < FEWEST_EVENTS) return none('too-few-events');
  const start = startOf(events);
  if (start === null) return none('no-decay-seen');
  const top = topOf(
    (free) => {
      const law = lawOf(free);
      return events.reduce((sum, event) => sum + eventLogLikelihood(event, law), 0);
    },
    start,
    DRIFT_PARAMETERS.map((name, i) => reachOf(name, start[i], start[0])),
    level,
  );
  if (top === null) return none('no-finite-maximum');
  const estimate = (name: DriftParameter): DriftEstimate => {
    const { at, isNone, low, high } = top.numbers[DRIFT_PARAMETERS.indexOf(name)];
    const least = NONE[name] ?? null;
    return {
      value: isNone && least !== null ? least : valueOf(name, at),
      low: low === null ? least : valueOf(name, low),
      high: high === null ? null : valueOf(name, high),
      isTold: least === null || low !== null,
    };
  };
  return {
    converged: true,
    parameters: {
      rate: estimate('rate'),
      geometricSd: estimate('geometricSd'),
      decay: estimate('decay'),
      steady: estimate('steady'),
      error: estimate('error'),
    },
    logLikelihood: top.value,
    covariance: top.covariance,
    events: events.length,
    readings,
  };
}

/** Rates of one disturbance's readings from a settling time on: their average, and the greatest. Nanometres a second. */
export interface SettledRates {
  readonly average: number;
  readonly greatest: number;
}

/**
 * Rates as readings show them from a settling time (s) on, disturbance by disturbance: those read, or from each displacement to the next.
 * Those with too few readings after it are left out.
 */
export function settledRates(
  events: readonly DriftEvent[],
  form: DriftForm,
  settling: number,
): readonly SettledRates[] {
  return events.flatMap(({ times, values }) => {
    const kept = times.flatMap((time, i) => (time >= settling ? [{ time, value: values[i] }] : []));
    const [first, last] = [kept.at(0), kept.at(-1)];
    if (first === undefined || last === undefined) return [];
    if (form === 'rate') {
      const rates = kept.map(({ value }) => value);
      return [{ average: rates.reduce((sum, rate) => sum + rate, 0) / rates.length, greatest: Math.max(...rates) }];
    }
    if (kept.length < 2) return [];
    const steps = kept.slice(1).map(({ time, value }, i) => (value - kept[i].value) / (time - kept[i].time));
    return [{ average: (last.value - first.value) / (last.time - first.time), greatest: Math.max(...steps) }];
  });
}
