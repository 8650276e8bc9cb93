import { compileLife, type Life } from '../../src/chance/life.js';
import { LuckTable, PURPOSES } from '../../src/chance/luck.js';
import type { Observation } from '../../src/survival/observation.js';

/** Lives as published tables give them: exposures, whether each ended in an event, and how often each stands there. */
export function tabled(
  times: readonly number[],
  event: readonly number[] | 'all 1' = 'all 1',
  count: readonly number[] = times.map(() => 1),
): Observation[] {
  return times.flatMap((time, i) => {
    const failed = event === 'all 1' || event[i] !== 0;
    const one: Observation = { entry: 0, from: time, to: failed ? time : Infinity };
    return Array.from({ length: count[i] }, () => one);
  });
}

/** What a made log is like. */
export interface MadeLog {
  readonly life: Life;
  /** Tips that failed. */
  readonly events: number;
  /** Tips taken off sound for each that failed, on average. */
  readonly censoredPerEvent: number;
}

/**
 * A log of independent tips that has just so many events: tips come one after the other, each with a life of the distribution and an independent exponential
 * exposure at which it'd be taken off sound, until the last event. Uniforms are drawn in order.
 */
export function madeLog({ life, events, censoredPerEvent }: MadeLog, uniform: () => number): Observation[] {
  const distribution = compileLife(life);
  // A constant hazard of censoring against the mean life gives about the share asked for, whatever the distribution.
  const median = distribution.exposureAt(Math.LN2);
  const log: Observation[] = [];
  let failed = 0;
  while (failed < events) {
    const lived = distribution.exposureAt(-Math.log(uniform()));
    const limit = censoredPerEvent === 0 ? Infinity : (-Math.log(uniform()) * median * 1.4) / censoredPerEvent;
    const isEvent = lived <= limit;
    log.push({ entry: 0, from: isEvent ? lived : limit, to: isEvent ? lived : Infinity });
    if (isEvent) failed += 1;
  }
  return log;
}

/** A log of so many events, with as many tips taken off sound on average, by random numbers of a seed. */
export function madeWith(life: Life, events: number, seed: string, repeat = 0): Observation[] {
  const luck = new LuckTable(seed).replication(repeat);
  let drawn = 0;
  return madeLog({ life, events, censoredPerEvent: 1 }, () => luck.uniform(PURPOSES.life, 0, 0, 0, drawn++));
}
