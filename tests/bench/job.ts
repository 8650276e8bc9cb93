import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { z } from 'zod';
import { root } from '../support/command.js';

export const beside = (name: string) => fileURLToPath(new URL(name, import.meta.url));

/** What the three programs of the plain case are held together by. Total time in hours. */
export const MEASURES = ['totalTime', 'yield', 'tips', 'takes', 'undetectedBadShare'] as const;
export type Measure = (typeof MEASURES)[number];

export const secondsSchema = z.object({ user: z.number(), wall: z.number() });
export const figureSchema = z.object({ mean: z.number(), standardError: z.number() });
export const meansSchema = z.record(z.enum(MEASURES), figureSchema);
export type Figure = z.output<typeof figureSchema>;

/** Seconds of the processor (user, all threads of the process) and of the clock. */
export type Seconds = z.output<typeof secondsSchema>;

/** So many campaigns took so long. */
export interface Slice {
  readonly campaigns: number;
  readonly seconds: Seconds;
}

const measuredSchema = z.object({
  slices: z.array(z.object({ campaigns: z.number(), seconds: secondsSchema })),
  means: meansSchema,
  eventsPerCampaign: z.number(),
  /** Bytes. */
  peak: z.number(),
  images: z.number(),
  draws: z.object({ perCampaign: z.number(), seconds: z.number() }).nullable(),
});
export type Measured = z.output<typeof measuredSchema>;

/** Campaigns to be run and measured in a process of their own. */
export interface Job {
  /** The scenario. */
  readonly text: string;
  /** Place of the strategy in it. */
  readonly strategy: number;
  readonly warmUpSeconds: number;
  /** How many times in a row it is measured, */
  readonly slices: number;
  /** and how long each time. */
  readonly slice: { readonly campaigns: number } | { readonly seconds: number };
  /** First replication. */
  readonly first: number;
  /** Campaigns whose events are counted, after all is timed. */
  readonly countedCampaigns: number;
  /** What luck costs by itself is measured too. */
  readonly isDrawnAlone: boolean;
}

/** Measures campaigns of ours on one thread, after warming up. */
export function measure(job: Job): Measured {
  return measuredSchema.parse(JSON.parse(outputOf(process.execPath, [beside('ours.js')], JSON.stringify(job))));
}

/** What a program prints. Throws an Error with its complaint where it fails. */
export function outputOf(program: string, args: readonly string[], input = ''): string {
  const { status, stdout, stderr, error } = spawnSync(program, args, { input, encoding: 'utf8', maxBuffer: 2 ** 26 });
  if (error !== undefined) throw error;
  if (status !== 0) throw new Error(`${program} ${args.join(' ')} failed: ${stderr}`);
  return stdout;
}

/** What a whole process has used, from its start to its end. */
export interface Used {
  readonly seconds: Seconds;
  /** Most memory in use at a time, bytes. */
  readonly peak: number;
}

const usedSchema = z.object({ user: z.number(), peak: z.number() });

/** Runs a command of swap-or-hop from start to end. Throws an Error with its complaint where it fails. */
export function use(args: readonly string[]): Used {
  const start = performance.now();
  const { status, output, error } = spawnSync(
    process.execPath,
    ['--import', new URL('exit-report.js', import.meta.url).href, join(root, 'dist/cli/main.js'), ...args, '--quiet'],
    { stdio: ['ignore', 'ignore', 'pipe', 'pipe'], encoding: 'utf8', cwd: root },
  );
  const wall = (performance.now() - start) / 1000;
  if (error !== undefined) throw error;
  if (status !== 0) throw new Error(`${args.join(' ')} failed: ${output[2] ?? ''}`);
  const { user, peak } = usedSchema.parse(JSON.parse(output[3] ?? ''));
  return { seconds: { user, wall }, peak };
}
