import type { Collector } from '../execution/collector.js';
import { Stopped, type Work } from '../execution/work.js';

/** How every study says first that it was interrupted. */
export const INTERRUPTED = 'interrupted';

/** Replications of which something is said that somebody stopped; fewer may all be alike by chance. */
export const FEWEST_SAID = 30;

/** Whether a study says that it was interrupted. */
export function isInterrupted(stopping: string): boolean {
  return stopping.startsWith(INTERRUPTED);
}

/** The campaigns that a study speaks of: all that were run, or where it was interrupted, the completed prefix. */
export function completedPrefix(campaigns: readonly Collector[], stopping: string): readonly Collector[] {
  return isInterrupted(stopping) ? campaigns.map(({ toMark }) => toMark) : campaigns;
}

/**
 * What a study says that somebody stopped while campaigns were run, as many of each strategy.
 * @param without what is missing besides, such as `what comes of less time was not tried`
 * @param fewest replications that anything can be said of
 * @throws Stopped where there are fewer
 */
export function stoppedAt([{ toMark, count }]: readonly Collector[], without: string | null, fewest?: number): string {
  return stoppedWithin(toMark.count, without, fewest, count);
}

/**
 * What a study says that somebody stopped while replications were run.
 * @param without what is missing besides, such as `what comes of less time was not tried`
 * @param fewest replications that anything can be said of
 * @param complete replications, of which the first ones are spoken of
 * @throws Stopped where there are fewer
 */
export function stoppedWithin(
  replications: number,
  without: string | null,
  fewest = 2,
  complete = replications,
): string {
  if (replications < fewest) throw new Stopped();
  const first = complete === replications ? '' : `, the first of ${complete} that are complete`;
  return `${INTERRUPTED} after ${replications} replications${first}, before all were run${without === null ? '' : `; ${without}`}`;
}

/** What a study says that somebody stopped when all its replications were there, but not what follows upon them. */
export function stoppedBehind(replications: number, without: string): string {
  return `${INTERRUPTED} after all ${replications} replications; ${without}`;
}

/** What a study says that somebody stopped on its way to something. */
export function stoppedBefore(what: string): string {
  return `${INTERRUPTED}, before ${what}`;
}

/** The warning that a study gives which somebody stopped; none of any other. */
export function warnedOf(stopping: string): readonly string[] {
  return isInterrupted(stopping) ? [stopping] : [];
}

/** Work that a study can do without; null where it was interrupted. */
export function* unlessStopped<Result>(work: Work<Result>): Work<Result | null> {
  try {
    return yield* work;
  } catch (error) {
    if (error instanceof Stopped) return null;
    throw error;
  }
}
