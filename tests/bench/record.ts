import { readFileSync } from 'node:fs';
import { z } from 'zod';
import type { Baseline } from './baselines.js';
import { beside, meansSchema } from './job.js';
import type { PlainCase } from './plain-case.js';

const FILE = 'baselines.json';

const recordSchema = z.object({
  /** One a round. */
  seeds: z.array(z.number()),
  programs: z.array(
    z.object({
      name: z.string(),
      file: z.string(),
      version: z.string(),
      campaignsPerSeed: z.number(),
      means: meansSchema,
    }),
  ),
});
/** Means of the baselines, total time in hours, and how to get them again. */
export type BaselinesRecord = z.output<typeof recordSchema>;

/** Reads what was recorded of the baselines. */
export function readBaselines(): BaselinesRecord {
  return recordSchema.parse(JSON.parse(readFileSync(beside(FILE), 'utf8')));
}

/** What the baselines gave, for a test to hold ours to. */
export function recordOf({ rounds, programs }: PlainCase, baselines: readonly Baseline[]): BaselinesRecord {
  return {
    seeds: Array.from({ length: rounds }, (_, round) => round + 1),
    programs: baselines.map(({ name, file, version, campaigns }) => {
      const means = programs.find((program) => program.name === name)?.means;
      if (means === undefined) throw new Error(`${name} was not run.`);
      return { name, file, version, campaignsPerSeed: campaigns, means };
    }),
  };
}
