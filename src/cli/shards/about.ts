import * as z from 'zod';
import { shellLine } from '../../scenario/shell-line.js';

export const SHARD_FORMAT = 'swap-or-hop shard';

export const aboutSchema = z.object({
  format: z.literal(SHARD_FORMAT),
  formatVersion: z.literal(1),
  tool: z.object({ name: z.string(), version: z.string(), commit: z.string().nullable() }),
  scenario: z.object({ file: z.string(), sha256: z.string() }),
  seed: z.string(),
  study: z.string(),
  /** As they were typed, but for those that change no result. */
  options: z.record(z.string(), z.string()),
  shard: z.object({ number: z.int().min(1), of: z.int().min(1) }),
});

/** What a shard says of itself: which part it is of which study, of which scenario, by which program. */
export type ShardAbout = Readonly<z.infer<typeof aboutSchema>>;

/** The command line of the one run that all shards stand for. */
export function lineOf({ study, scenario, options }: Pick<ShardAbout, 'study' | 'scenario' | 'options'>): string {
  return shellLine(study, scenario.file, options);
}
