import { runCampaign } from '../campaign/campaign.js';
import { LuckTable } from '../chance/luck.js';
import type { LoadedScenario } from '../scenario/load.js';
import { runnable, type Runnable } from '../execution/replicate.js';
import type { Timeline, TraceEvent } from './results.js';
import { Chronicle, TimelineRecorder } from './timeline.js';

/** Everything that happened in one replication of one strategy. */
export interface Trace {
  readonly seed: string;
  readonly timeline: Timeline;
  readonly events: readonly TraceEvent[];
}

/**
 * Runs one replication with everything recorded; replications are numbered from 1, as in `replications.csv`.
 * @throws RangeError where the scenario has no strategy of that name
 */
export function traceReplication(
  loaded: LoadedScenario,
  strategy: string,
  replication: number,
  seed = loaded.base.seed,
): Trace {
  const found = runnable(loaded.strategies).find(({ name }) => name === strategy);
  if (found === undefined) throw new RangeError(`No strategy is called ${strategy}.`);
  const chronicle = new Chronicle(found.name, found.model);
  runCampaign(found.model, new LuckTable(seed).replication(replication), chronicle);
  return { seed, timeline: chronicle.timeline(), events: chronicle.log() };
}

/** The timeline alone of a strategy that is ready to run, which takes a fraction of the memory. */
export function timelineOf({ name, model }: Runnable, table: LuckTable, replication: number): Timeline {
  const recorder = new TimelineRecorder(name, model);
  runCampaign(model, table.replication(replication), recorder);
  return recorder.timeline();
}
