/** One tip's life with respect to one cause, in one exposure unit. */
export interface Observation {
  /** Exposure at which it came under observation (left truncation); 0 for a new tip. */
  readonly entry: number;
  /** The event is later than this: the last known sound use, or the end of observation. */
  readonly from: number;
  /** The event is at or before this; equal to `from` where it is known exactly, Infinity where it is right-censored. */
  readonly to: number;
}

/** One tip's life with what ended it; cause null: taken off sound. */
export interface Lived extends Observation {
  readonly cause: string | null;
}

/**
 * The lives as one cause sees them: the others censor, an interval at the last known sound use. A life taken off sound is
 * censored at `from`. One that another cause ended before the first look says nothing of this one, and is left out.
 */
export function forCause(lives: readonly Lived[], cause: string): Observation[] {
  return lives
    .map((life) => ({ entry: life.entry, from: life.from, to: life.cause === cause ? life.to : Infinity }))
    .filter(isWatched);
}

/** The lives as if each event had come when it was noticed: what a log says that keeps no last known sound use, and biased late. */
export function asNoticed<Life extends Observation>(lives: readonly Life[]): Life[] {
  return lives.map((life) => (isInterval(life) ? { ...life, from: life.to } : life));
}

/** Whether the event was seen, at whatever precision. */
export function isEvent({ to }: Observation): boolean {
  return to < Infinity;
}

/** Whether a life says anything: one that is censored where it came under observation does not. */
export function isWatched({ entry, from, to }: Observation): boolean {
  return to < Infinity || from > entry;
}

/** Whether the event is known only to lie between two exposures. */
export function isInterval({ from, to }: Observation): boolean {
  return to < Infinity && from < to;
}

/**
 * Refuses what no life can be, so that a fit never sees it.
 * @throws RangeError naming the first observation that is no life: entry negative, `from` before entry, `to` before `from`,
 *   or an end that is no number, or an event where it came under observation, which had no exposure to come in
 */
export function assertLives(observations: readonly Observation[]): void {
  observations.forEach(({ entry, from, to }, index) => {
    const sound = entry >= 0 && entry < Infinity && from >= entry && from < Infinity && to >= from && to > entry;
    if (!sound) throw new RangeError(`observation ${index} is no life: entry ${entry}, from ${from}, to ${to}`);
  });
}
