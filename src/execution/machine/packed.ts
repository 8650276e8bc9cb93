import { deserialize, serialize, setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { type Experiment, imagesOf } from '../experiment.js';
import { runJob } from '../in-process.js';
import type { Job, JobResult } from '../job.js';

/** An experiment as it is handed to threads: in memory that all share, and read by each of them once. */
interface PackedExperiment {
  /** The same for the same experiment, as long as the program runs. */
  readonly key: number;
  readonly bytes: Uint8Array;
  /** Images of all its strategies, by which it is judged how much memory it takes. */
  readonly images: number;
}

/** A job as it is handed to a thread. */
export interface PackedJob extends Omit<Job, 'experiment'> {
  readonly experiment: PackedExperiment;
}

const packed = new WeakMap<Experiment, PackedExperiment>();
let lastKey = 0;

export function pack(job: Job): PackedJob {
  return { ...job, experiment: packExperiment(job.experiment) };
}

function packExperiment(experiment: Experiment): PackedExperiment {
  const known = packed.get(experiment);
  if (known !== undefined) return known;
  const plain = serialize(experiment);
  const bytes = new Uint8Array(new SharedArrayBuffer(plain.length));
  bytes.set(plain);
  lastKey += 1;
  const fresh = { key: lastKey, bytes, images: imagesOf(experiment) };
  packed.set(experiment, fresh);
  return fresh;
}

/** Images of the experiments that a thread keeps ready; of more, those used longest ago go. */
const MOST_IMAGES = 200_000;

/** Images of an experiment behind whose campaigns a thread clears up: left to itself it lets some hundred megabytes come together. */
const LARGE = 50_000;

const unpacked = new Map<number, { readonly experiment: Experiment; readonly images: number }>();

/** Runs jobs on the thread that they were handed to. */
export function runPacked(jobs: readonly PackedJob[]): readonly JobResult[] {
  const results = jobs.map((job) => runJob({ ...job, experiment: unpack(job.experiment) }));
  if (jobs.some(({ experiment }) => experiment.images >= LARGE)) collectGarbage();
  return results;
}

function unpack({ key, bytes, images }: PackedExperiment): Experiment {
  const found = unpacked.get(key) ?? { experiment: read(bytes), images };
  unpacked.delete(key);
  unpacked.set(key, found);
  let kept = Array.from(unpacked.values()).reduce((sum, each) => sum + each.images, 0);
  for (const [oldest, each] of unpacked) {
    if (kept <= MOST_IMAGES || oldest === key) break;
    unpacked.delete(oldest);
    kept -= each.images;
  }
  return found.experiment;
}

function read(bytes: Uint8Array): Experiment {
  const experiment: unknown = deserialize(bytes);
  if (!isExperiment(experiment)) throw new Error('this is no experiment');
  return experiment;
}

function isExperiment(value: unknown): value is Experiment {
  return typeof value === 'object' && value !== null && 'kind' in value;
}

function collectGarbage(): void {
  setFlagsFromString('--expose-gc');
  runInNewContext('gc()');
}
