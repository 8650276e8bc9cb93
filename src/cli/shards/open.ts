import type { Cache } from '../../execution/cache.js';
import { KnownResults } from '../../execution/machine/known-results.js';
import {
  Broken,
  openResultFile,
  type ResultFile,
  resultFile,
  type StoredSegment,
} from '../../execution/machine/result-file.js';
import type { CompletedJob } from '../../execution/share.js';
import { Failure } from '../../scenario/failure.js';
import { readBytes, sha256Of } from '../text-file.js';
import { aboutSchema, type ShardAbout } from './about.js';

const WANTED = { what: 'a shard', form: '', most: 2_000_000_000 } as const;

/** A whole shard file, as far as it is known without its numbers. */
export interface Shard {
  readonly file: string;
  readonly about: ShardAbout;
  /** Text of the scenario. */
  readonly scenario: string;
  readonly segments: readonly StoredSegment[];
}

export function shardFile(about: ShardAbout, scenario: string, jobs: readonly CompletedJob[]): Iterable<Uint8Array> {
  return resultFile({ shard: JSON.stringify(about), scenario }, jobs);
}

/** Opens a shard and checks every byte of it; one that is none, is cut short or damaged is a failure that says so. */
export function openShard(file: string): Shard {
  const { notes, segments } = opened(file);
  const about = aboutSchema.safeParse(jsonIn(notes['shard']));
  if (!about.success)
    throw new Failure(
      `${file}: it is no shard, or one of another version of this program; take it away, or merge with that version`,
    );
  const scenario = notes['scenario'] ?? '';
  if (sha256Of(scenario) !== about.data.scenario.sha256)
    throw new Failure(`${file}: the scenario in it is not the one that it was made of`);
  return { file, about: about.data, scenario, segments };
}

/** What shards know, of which one is held in memory at a time. */
export function resultsIn(shards: readonly Shard[]): Cache {
  const results = new KnownResults();
  for (const { file, segments } of shards)
    for (const [place, { key, from, to }] of segments.entries())
      results.add(key, { from, to, read: () => opened(file).read(place) });
  return { known: (job) => results.of(job), keep: () => undefined };
}

function opened(file: string): ResultFile {
  try {
    return openResultFile(readBytes(file, WANTED));
  } catch (error) {
    if (!(error instanceof Broken)) throw error;
    throw new Failure(
      `${file}: this is no shard to be merged; ${error.message}; take it away, and make that shard again`,
    );
  }
}

function jsonIn(text: string | undefined): unknown {
  try {
    return text === undefined ? null : JSON.parse(text);
  } catch {
    return null;
  }
}
