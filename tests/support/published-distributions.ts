import { z } from 'zod';
import type { Life } from '../../src/chance/life.js';

const parameters = z.union([
  z.strictObject({ mean: z.number() }),
  z.strictObject({ rate: z.number() }),
  z.strictObject({ mu: z.number(), sigma: z.number() }),
  z.strictObject({ shape: z.number(), scale: z.number() }),
]);

/** Distributions of shared/check-values.json, keyed by a name that begins with the family. */
export const publishedDistributions = z.record(z.string(), parameters);

/** The life that a published distribution stands for: lognormal by the mean and standard deviation of the logarithm, exponential by mean or rate. */
export function publishedLife(name: string, distribution: z.output<typeof parameters>): Life {
  if ('mean' in distribution) return { distribution: 'exponential', mean: distribution.mean };
  if ('rate' in distribution) return { distribution: 'exponential', mean: 1 / distribution.rate };
  if ('mu' in distribution)
    return { distribution: 'lognormal', median: Math.exp(distribution.mu), geometricSd: Math.exp(distribution.sigma) };
  return { distribution: name.startsWith('gamma') ? 'gamma' : 'weibull', ...distribution };
}
