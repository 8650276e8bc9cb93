import { isEvent, isInterval, type Observation } from './observation.js';

/** What a look at the tip would have known of a life: an interval, or for a life seen to end, its end twice. */
export interface Seen {
  readonly from: number;
  readonly to: number;
}

/** How tips were looked at, as far as a log tells. */
export interface Looks {
  /**
   * What would have been known of an event.
   * @param gap width of the tip's own interval, or null for a tip whose event wasn't seen
   * @param whose,where uniforms in (0, 1): whose gap such a tip gets, and where in a gap the event falls
   */
  see(life: number, entry: number, gap: number | null, whose: number, where: number): Seen;
}

/** All events at the ends of the same few intervals: the looks were at set exposures, for all tips alike. */
function atSetExposures(ends: readonly number[]): Looks {
  return {
    see(life, entry) {
      const to = ends.find((end) => end >= life) ?? Infinity;
      const from = ends.reduce((latest, end) => (end < life ? end : latest), 0);
      return { from: Math.max(entry, from), to };
    },
  };
}

/** Every tip was looked at in its own time. */
function inOwnTime(gaps: readonly number[]): Looks {
  return {
    see(life, entry, own, whose, where) {
      const gap = own ?? gaps[Math.floor(whose * gaps.length)];
      if (!(gap > 0)) return { from: life, to: life };
      const from = Math.max(entry, life - where * gap);
      return { from, to: Math.max(life, from + gap) };
    },
  };
}

/**
 * How the tips of a log were looked at: at set exposures, where every interval shares its ends with others, else each in its own time, with
 * gaps as wide as those seen.
 * @param observations with at least one event
 */
export function looksOf(observations: readonly Observation[]): Looks {
  const events = observations.filter(isEvent);
  const ends = [...new Set(events.flatMap(({ from, to }) => [from, to]))].sort((a, b) => a - b);
  const isShared = events.every(isInterval) && ends.length <= events.length;
  return isShared ? atSetExposures(ends) : inOwnTime(events.map(({ from, to }) => to - from));
}
