import { Drift, type DriftCourse, type DisturbanceKind } from '../probe/drift.js';

/** What started a drift: the rate right after it, in nanometres a second, and when, in microseconds. */
export interface Started {
  readonly kind: DisturbanceKind;
  readonly rate: number;
  readonly time: number;
}

/** A stretch of time with the drift rate at its start, in nanometres a second. Microseconds. */
export interface RateStretch {
  readonly start: number;
  readonly end: number;
  readonly rate: number;
}

/** By this factor the rate falls over a stretch. */
const FALL = 1.2;
/** What is left of a disturbance is not told once it is this share of the greatest rate, or of the steady one. */
const LITTLE = { ofGreatest: 1e-3, ofSteady: 0.02 };
/** Stretches told of one instrument; of more, neighbours are joined. */
const MOST_STRETCHES = 2000;

/** How the summed drift rate went from one moment to another; disturbances in order of time, none before the first moment. */
export function driftLine(
  course: DriftCourse,
  disturbances: readonly Started[],
  from: number,
  to: number,
): readonly RateStretch[] {
  const drift = new Drift(course);
  const greatest = disturbances.reduce((most, { rate }) => Math.max(most, rate), 0);
  const little = Math.max(LITTLE.ofGreatest * greatest, LITTLE.ofSteady * course.steady);
  const stretches: RateStretch[] = [];
  const fallFrom = (begin: number, until: number): void => {
    for (let start = begin; start < until;) {
      const rate = drift.rateAt(start);
      const passing = rate - course.steady;
      const end =
        passing > little ? Math.min(until, start + Math.max(1, drift.waitUntil(passing / FALL, start))) : until;
      stretches.push({ start, end, rate });
      start = end;
    }
  };
  const moments = disturbances.map(({ time }) => time);
  fallFrom(from, moments[0] ?? to);
  disturbances.forEach(({ kind, rate, time }, place) => {
    drift.disturb(kind, rate, time);
    fallFrom(time, moments[place + 1] ?? to);
  });
  return fewer(stretches);
}

/** Neighbours joined, with the greatest of their rates, until no more than so many are left. */
function fewer(stretches: readonly RateStretch[]): readonly RateStretch[] {
  const size = Math.ceil(stretches.length / MOST_STRETCHES);
  if (size <= 1) return stretches;
  return Array.from({ length: Math.ceil(stretches.length / size) }, (_, group) => {
    const joined = stretches.slice(group * size, (group + 1) * size);
    return {
      start: joined[0].start,
      end: joined[joined.length - 1].end,
      rate: joined.reduce((most, { rate }) => Math.max(most, rate), 0),
    };
  });
}
