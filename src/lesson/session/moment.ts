import type { Activity } from '../../campaign/activities.js';
import type { ShownScan, ShownStep } from './play.js';
import type { Point } from './player.js';

/** What a moment is told from. Times in seconds from the start. */
interface Told {
  readonly end: number;
  readonly steps: readonly ShownStep[];
  readonly points: readonly Point[];
}

/** Seconds by activity up to a moment, as it looks then: a scan counts as lost from when its image was flagged or taken again. */
export function tallyAt({ steps }: Pick<Told, 'steps'>, time: number): ReadonlyMap<Activity, number> {
  const tally = new Map<Activity, number>();
  for (const { start, end, activity, scan } of steps) {
    const spent = Math.min(end, time) - start;
    if (spent <= 0) continue;
    const isLost = scan !== null && scan.lostAt !== null && scan.lostAt <= time;
    const what = isLost ? 'scanning lost' : activity;
    tally.set(what, (tally.get(what) ?? 0) + spent);
  }
  return tally;
}

/** What goes on at a moment; the one that began last where several do. Null before the first and at the very end. */
export function stepAt({ steps }: Told, time: number): ShownStep | null {
  return steps.reduce<ShownStep | null>(
    (latest, step) =>
      step.start <= time && time < step.end && (latest === null || step.start >= latest.start) ? step : latest,
    null,
  );
}

/** The scan that runs at a moment, or else the last one before it, and the fraction of it that is done. */
export function scanAt({ steps }: Told, time: number): { readonly scan: ShownScan; readonly done: number } | null {
  let last: { start: number; end: number; scan: ShownScan } | null = null;
  for (const { start, end, scan } of steps)
    if (scan !== null && start <= time && (last === null || start >= last.start)) last = { start, end, scan };
  if (last === null) return null;
  return { scan: last.scan, done: (Math.min(time, last.end) - last.start) / last.scan.duration };
}

/** What was known of the tip when it was last thought about. */
export function knownAt({ points }: Told, time: number): Point | null {
  return points.findLast((point) => point.time <= time) ?? null;
}

/** Images begun up to a moment with the tip that was thought about at a point, until it is thought about again. */
export function imagesWith({ steps }: Told, { time: from, instrument, images }: Point, time: number): number {
  const since = steps.filter(
    (step) => step.scan !== null && step.instrument === instrument && step.start >= from && step.start <= time,
  );
  return images + since.length;
}

/** The next moment before an attempt, at which one may do something about the tip. */
export function nextPoint({ points }: Told, time: number): Point | null {
  return points.find((point) => point.inDoubt === null && point.time >= time) ?? null;
}

/** Images that are kept at a moment, as far as anybody knows. */
export function keptAt({ steps }: Told, time: number): number {
  return steps.filter(({ end, scan }) => scan !== null && end <= time && (scan.lostAt === null || scan.lostAt > time))
    .length;
}

/** When the next step, or the next decision, begins after a moment. */
export function nextMoment({ steps, end }: Told, time: number): number {
  return steps.reduce((next, { start }) => (start > time && start < next ? start : next), end);
}

/** Waits longer than this (seconds) are passed over in one go. */
const LONG_WAIT = 20 * 60;

/** The moment to which time jumps where nothing happens for long; the same moment where something does. */
export function pastWait(told: Told, time: number): number {
  const step = stepAt(told, time);
  return step !== null && step.activity.startsWith('waiting') && step.end - time > LONG_WAIT ? step.end : time;
}
