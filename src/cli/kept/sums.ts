import { z } from 'zod';
import type { WentBecause } from '../../campaign/ledger.js';
import type { SpoiledBy } from '../../probe/tip.js';
import { perImageSum, type SumsOfBatch } from '../../study/work/batch.js';

const numbers = z.array(z.int().min(0)).transform((all) => Float64Array.from(all));
const isText = (value: unknown): boolean => typeof value === 'string';
// Which causes and reasons there are is the program's own matter: a file of another version is not read.
const cause = z.custom<SpoiledBy | 'unspoiled'>(isText);
const reason = z.custom<WentBecause>(isText);

/** Sums of a batch as JSON holds them: whole numbers, exactly. */
export const sumsSchema = z.object({
  images: z.object(perImageSum(() => numbers)),
  split: z.object({ high: numbers, low: numbers }),
  spoiledBy: z.array(z.tuple([cause, z.int()])).transform((entries) => new Map(entries)),
  wentBecause: z.array(z.tuple([reason, z.int()])).transform((entries) => new Map(entries)),
});

export function fromSums({ images, split, spoiledBy, wentBecause }: SumsOfBatch): z.input<typeof sumsSchema> {
  return {
    images: perImageSum((sum) => Array.from(images[sum])),
    split: { high: Array.from(split.high), low: Array.from(split.low) },
    spoiledBy: [...spoiledBy],
    wentBecause: [...wentBecause],
  };
}
