import { resolve } from 'node:path';
import { type Share, shareWork } from '../../study/work/share.js';
import type { Work } from '../../study/work/work.js';
import { Failure } from '../failure.js';
import { removeJournal } from '../journal.js';
import { journalOf } from '../neighbours.js';
import { pursue } from '../pursue.js';
import { openScenario } from '../scenario-file.js';
import { beginCommand } from '../shared.js';
import { crewMeant, type Given, type Ground, groundOf } from '../study.js';
import { recordedHere } from '../version.js';
import { writeWholeFile } from '../whole-file.js';
import { type ShardAbout, SHARD_FORMAT, type SharedStudy } from './about.js';
import { shardBytes } from './open.js';
import { makeRoom, shardPlace } from './place.js';

export const SHARD_OPTION = {
  type: 'string',
  requiresArg: true,
  describe: 'Work out one share of the replications, such as 2/5, for `merge`; into a file in the folder',
} as const;

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

interface Asked {
  readonly given: Given;
  /** Options of the command. */
  readonly known: Readonly<Record<string, unknown>>;
  readonly study: SharedStudy;
  readonly share: Share;
  /** Options that results depend on, as they were typed. */
  readonly line: Readonly<Record<string, string | undefined>>;
  /** The study that the shard is a part of. */
  readonly work: (ground: Ground) => Work<unknown>;
}

/** Works out one shard of a study and writes it into a file of its own, which is whole or not there. */
export async function writeShard({ given, known, study, share, line, work }: Asked): Promise<void> {
  const console = beginCommand(given, known);
  if (given.json) throw new Failure('--json goes with a report, and a shard is none; give it to `merge`');
  const crew = crewMeant(given.threads, console);
  const scenario = openScenario(given.file, console);
  const ground = groundOf(scenario, given, console);
  const file = shardPlace(given, study, share);
  makeRoom(file);
  const answered = await pursue({ ...ground, folder: file, crew }, shareWork(work(ground), share));
  await crew.end();
  const { toolVersion, commit } = recordedHere();
  const about: ShardAbout = {
    ...{ format: SHARD_FORMAT, formatVersion: 1, study, shard: share },
    tool: { name: 'swap-or-hop', version: toolVersion, commit },
    scenario: { file: ground.options.file, sha256: scenario.sha256 },
    seed: given.seed ?? ground.loaded.base.seed,
    options: Object.fromEntries(
      Object.entries(line).flatMap(([name, value]) => (value === undefined ? [] : [[name, value]])),
    ),
  };
  writeWholeFile(file, shardBytes(about, scenario.text, answered));
  removeJournal(journalOf(resolve(file)));
  console.result(file);
}
