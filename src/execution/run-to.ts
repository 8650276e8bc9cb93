import type { Collector } from './collector.js';
import type { Job, Task } from './job.js';
import type { OnProgress } from './progress.js';

/** Campaigns of which everything can be said within about half a second, when somebody stops a study. */
const SAID_AT_ONCE = 1_000_000;

/**
 * Runs all strategies of an experiment on, to as many replications of each.
 * @param campaigns one collector a strategy, which gets its mark at what can be said at once
 */
export function runTo(
  end: number,
  what: Pick<Job, 'experiment' | 'seed' | 'wants'>,
  campaigns: readonly Collector[],
  onProgress?: OnProgress,
): Task {
  for (const each of campaigns) each.reserve(end);
  return {
    job: { ...what, from: campaigns[0].count + 1, to: end },
    take: (result) => {
      result.forEach((batch, i) => {
        campaigns[i].append(batch);
      });
      if (campaigns[0].count * campaigns.length >= SAID_AT_ONCE) for (const each of campaigns) each.setMark();
      onProgress?.({ phase: 'replications', done: campaigns[0].count, of: end });
    },
  };
}
