import { basename, resolve } from 'node:path';
import type { CompletedJob, Share } from '../../execution/share.js';
import type { Work } from '../../execution/work.js';
import { Failure } from '../../scenario/failure.js';
import { aside, text } from '../../studies/options.js';
import type { ScenarioFile } from '../../studies/study.js';
import { removeCheckpoint } from '../../execution/machine/checkpoint.js';
import { checkpointOf } from '../../execution/machine/neighbours.js';
import { runWithCheckpoint, type RunPlace } from '../run-with-checkpoint.js';
import { recordedHere } from '../version.js';
import { writeWholeFile } from '../../execution/machine/whole-file.js';
import { type ShardAbout, SHARD_FORMAT } from './about.js';
import { shardFile } from './open.js';
import { makeRoom } from './place.js';

export const SHARD_OPTION = aside(
  text('Work out one share of the replications, such as 2/5, for `merge`; into a file in the folder'),
);

const MOST_SHARDS = 100_000;

/** The share that a person means by `2/5`; anything else, or shares of what is not given, is a usage error. */
export function shareMeant(text: string, replications: number | undefined): Share {
  const [, number, of] = /^\s*(\d{1,7})\s*\/\s*(\d{1,7})\s*$/.exec(text)?.map(Number) ?? [];
  if (number > of && of >= 1) throw new Failure(`--shard ${text}: there is no shard ${number} of ${of}`);
  if (!(number >= 1 && number <= of && of <= MOST_SHARDS))
    throw new Failure(`--shard wants the number of the shard and how many there are, such as 2/5, not "${text}"`);
  if (replications === undefined)
    throw new Failure('--shard deals out a number of replications: say with --replications how many there are in all');
  if (of > replications)
    throw new Failure(`--shard ${text}: ${replications} replications are too few for ${of} shards; take fewer shards`);
  return { number, of };
}

/** Works out one shard of a study and writes it into its place, a file of its own, which is whole or not there. */
export async function writeShard(
  about: Pick<ShardAbout, 'study' | 'shard' | 'seed' | 'options'>,
  scenario: ScenarioFile,
  place: RunPlace,
  work: Work<readonly CompletedJob[]>,
): Promise<void> {
  const { folder: file, pool, console } = place;
  makeRoom(file);
  const completed = await runWithCheckpoint(place, work);
  await pool.end();
  const { toolVersion, commit } = recordedHere();
  const whole: ShardAbout = {
    ...{ format: SHARD_FORMAT, formatVersion: 1, ...about },
    tool: { name: 'swap-or-hop', version: toolVersion, commit },
    scenario: { file: basename(scenario.file), sha256: scenario.sha256 },
  };
  writeWholeFile(file, shardFile(whole, scenario.text, completed));
  removeCheckpoint(checkpointOf(resolve(file)));
  console.result(file);
}
