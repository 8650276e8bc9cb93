import { z } from 'zod';
import type { Life } from '../../src/chance/life.js';

const parameters = z.union([
  z.strictObject({ mean: z.number() }),
  z.strictObject({ rate: z.number() }),
  z.strictObject({ mu: z.number(), sigma: z.number() }),
  z.strictObject({ shape: z.number(), scale: z.number() }),
]);

/** Laws of shared/check-values.json, keyed by a name that begins with the family. */
export const publishedLaws = z.record(z.string(), parameters);

/** The life that a published law stands for: lognormal by the mean and standard deviation of the logarithm, exponential by mean or rate. */
export function publishedLife(name: string, law: z.output<typeof parameters>): Life {
  if ('mean' in law) return { law: 'exponential', mean: law.mean };
  if ('rate' in law) return { law: 'exponential', mean: 1 / law.rate };
  if ('mu' in law) return { law: 'lognormal', median: Math.exp(law.mu), spread: Math.exp(law.sigma) };
  return { law: name.startsWith('gamma') ? 'gamma' : 'weibull', ...law };
}
