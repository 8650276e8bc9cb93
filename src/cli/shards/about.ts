import { z } from 'zod';
import { shellLine } from '../../scenario/shell-line.js';

export const SHARD_FORMAT = 'swap-or-hop shard';

/** Studies whose first orders can be dealt out: what they begin with hangs on no answer, once replications are given. */
export const SHARED_STUDIES = ['compare', 'budget'] as const;
export type SharedStudy = (typeof SHARED_STUDIES)[number];

export const aboutSchema = z.object({
  format: z.literal(SHARD_FORMAT),
  formatVersion: z.literal(1),
  tool: z.object({ name: z.string(), version: z.string(), commit: z.string().nullable() }),
  scenario: z.object({ file: z.string(), sha256: z.string() }),
  seed: z.string(),
  study: z.enum(SHARED_STUDIES),
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
