import { createHash } from 'node:crypto';
import type { Experiment } from '../experiment.js';
import type { Job } from '../job.js';

/** Plays are long, and asked for again and again. */
const experiments = new WeakMap<Experiment, string>();

/**
 * What an order asks for, but for the replications, as a hash in hexadecimal: orders with the same key are answered by the
 * same campaigns. Everything that an answer depends on beside the program is in it: the play, the seed, and what is wanted.
 */
export function jobKey({ experiment, seed, wants }: Job): string {
  const known = experiments.get(experiment) ?? hashOf(experiment);
  experiments.set(experiment, known);
  return hashOf([known, seed, wants]);
}

function hashOf(data: unknown): string {
  return createHash('sha256').update(JSON.stringify(data, exactly)).digest('hex');
}

/** JSON knows no NaN and no infinities, and would take all of them for nothing. */
function exactly(_: string, value: unknown): unknown {
  return typeof value === 'number' && !Number.isFinite(value) ? { number: String(value) } : value;
}
