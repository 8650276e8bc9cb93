/** What a thread does: it takes a message, and gives back what came of it. It imports no more than it needs for that. */

import { runPacked } from '../execution/machine/packed.js';
import type { JobsMessage } from '../execution/machine/worker-pool.js';
import type { ChartMessage } from './draw.js';

/** Results of jobs in their order, or the text of a picture. */
export default async function perform(message: JobsMessage | ChartMessage): Promise<unknown> {
  if (message.kind === 'jobs') return runPacked(message.jobs);
  const { drawHere } = await import('../report/pictures.js');
  return drawHere(message.spec, message.words);
}
