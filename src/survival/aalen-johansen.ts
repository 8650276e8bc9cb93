import { exp, ln } from '../chance/elementary.js';
import { riskTable } from './kaplan-meier.js';
import { isEvent, type Lived } from './observation.js';
import { halfWidth } from './profile.js';

/** The share of tips that a cause has ended, from one exposure to the next. */
export interface IncidenceStep {
  readonly time: number;
  readonly atRisk: number;
  /** Events of this cause here. */
  readonly events: number;
  readonly incidence: number;
  /** Of Greenwood's kind, the delta method on the Aalen-Johansen estimate. */
  readonly variance: number;
  /** On the log-log scale; null where the incidence is 0 or 1. */
  readonly low: number | null;
  readonly high: number | null;
}

/** Cumulative incidence of one cause. */
export interface Incidence {
  readonly cause: string;
  readonly steps: readonly IncidenceStep[];
}

/** All causes together, at the exposures at which any event is. */
export interface Incidences {
  readonly causes: readonly Incidence[];
  /** Share that no cause has ended yet, at the same exposures: with the incidences it makes 1. */
  readonly survival: readonly number[];
}

/**
 * The share of tips that each cause ends by an exposure while the others are at work too (O. Aalen and S. Johansen, Scand. J. Stat. 5, 141,
 * 1978). Unlike one minus the survival of a cause with the others censored, the shares add up. Variance: E. Marubini and M. G. Valsecchi,
 * Analysing Survival Data from Clinical Trials and Observational Studies, 1995, section 10.3.
 * @param causes whose incidence is wanted; an event of any other cause counts as censoring
 * @param level of confidence at each exposure, in (0, 1)
 * @throws RangeError for a life that is none, or whose event is known only to an interval
 */
export function aalenJohansen(lives: readonly Lived[], causes: readonly string[], level: number): Incidences {
  const wanted = halfWidth(level);
  const counted = lives.map((life) =>
    life.cause !== null && causes.includes(life.cause) ? life : { ...life, to: Infinity },
  );
  const rows = riskTable(counted).filter(({ events }) => events > 0);
  let left = 1;
  const before = rows.map(({ atRisk, events }) => {
    const share = left;
    left *= (atRisk - events) / atRisk;
    return share;
  });
  const survival = rows.map(({ atRisk, events }, i) => (before[i] * (atRisk - events)) / atRisk);

  function incidenceOf(cause: string): Incidence {
    const ended = counted.filter((life) => life.cause === cause && isEvent(life));
    const counts = rows.map(({ time }) => ended.filter(({ from }) => from === time).length);
    let incidence = 0;
    let byOthers = 0;
    const upTo = rows.map(({ atRisk, events }, i) => {
      incidence += (before[i] * counts[i]) / atRisk;
      byOthers += (before[i] * (events - counts[i])) / atRisk;
      // Of a cause that alone has ended all, the sum is 1 but for its rounding, and its variance is none.
      return survival[i] === 0 && byOthers === 0 ? 1 : Math.min(incidence, 1);
    });
    const steps = rows.map(({ time, atRisk }, here): IncidenceStep => {
      const now = upTo[here];
      let variance = 0;
      for (let i = 0; i <= here; i += 1) {
        const { atRisk: n, events } = rows[i];
        const since = now - upTo[i];
        const own = counts[i];
        if (n > events) variance += (since * since * events) / (n * (n - events));
        variance += (before[i] * before[i] * (n - own) * own) / (n * n * n);
        variance -= (2 * since * before[i] * own) / (n * n);
      }
      const step = { time, atRisk, events: counts[here], incidence: now, variance: Math.max(0, variance) };
      if (now <= 0 || now >= 1) return { ...step, low: null, high: null };
      const logRest = ln(now);
      const factor = exp((wanted * Math.sqrt(step.variance)) / (-logRest * now));
      return { ...step, low: exp(logRest * factor), high: exp(logRest / factor) };
    });
    return { cause, steps };
  }

  return { causes: causes.map(incidenceOf), survival };
}
