import { availableParallelism } from 'node:os';
import { basename, dirname, join, resolve } from 'node:path';
import { runInProcess } from '../execution/in-process.js';
import { type Share, shareWork } from '../execution/share.js';
import type { Work } from '../execution/work.js';
import type { Content } from '../report/report.js';
import { Failure } from '../scenario/failure.js';
import { aside, flag, meaning, recordedOptions, text, type Typed, valuesOf, whole } from '../studies/options.js';
import { EXPLORE_FILE, type Outcome, type Study } from '../studies/study.js';
import type { Call, Command } from './command.js';
import type { Console } from './console.js';
import { drawOn } from './draw.js';
import { explorePageOf } from './explore-page.js';
import { groundOf, type StudyGround } from './ground.js';
import { removeCheckpoint } from '../execution/machine/checkpoint.js';
import { checkpointOf } from '../execution/machine/neighbours.js';
import { checkOutputFolder, writeOutputFolder } from './output-folder.js';
import { plainName } from './plain-name.js';
import { runWithCheckpoint } from './run-with-checkpoint.js';
import { openScenario } from './scenario-file.js';
import { shardPlace } from './shards/place.js';
import { SHARD_OPTION, shareMeant, writeShard } from './shards/write.js';
import { WorkerPool } from '../execution/machine/worker-pool.js';

/** What a study is told of how it is run and where its report goes; no result hangs on it. */
export const RUN_OPTIONS = {
  out: aside(text('Folder for the report [default: that of the study]')),
  json: aside(flag('Print summary.json on stdout in place of the table')),
  threads: aside(
    meaning(
      'Threads to compute on, which changes no result [default: as many as there are cores]',
      // More would only wait for each other.
      whole({ min: 1, max: 256 }),
    ),
  ),
};

/** Of a report that is about to be made: where it goes, who computes it, and how it is shown. */
export interface Place {
  readonly console: Console;
  readonly folder: string;
  readonly isJson: boolean;
  readonly pool: WorkerPool;
  readonly ground: StudyGround;
}

/** The command of a study. */
export function studyCommand(name: string, study: Study): Command {
  const { out, json, threads } = RUN_OPTIONS;
  return {
    does: study.does,
    takes: { form: '<file>', help: study.file ?? 'The scenario (YAML)' },
    options: {
      ...study.options,
      ...(study.isShared === true ? { shard: SHARD_OPTION } : {}),
      out: { ...out, help: `Folder for the report [default: reports/<name of the file>${suffixOf(name, study)}]` },
      json,
      ...(study.isInPlace === true ? {} : { threads }),
    },
    run: (call) => runStudy(name, study, call),
  };
}

async function runStudy(name: string, study: Study, call: Call): Promise<void> {
  const { console, file, typed } = call;
  const { out, json: isJson, threads, shard } = valuesOf({ ...RUN_OPTIONS, shard: SHARD_OPTION }, typed);
  const pool = poolOf(threads, console);
  if (shard !== undefined) {
    if (isJson) throw new Failure('--json goes with a report, and a shard is none; give it to `merge`');
    await runShard(name, study, call, { share: shareMeant(shard, replicationsOf(study, typed)), out, pool });
    return;
  }
  const ground = groundOf(name, study, call);
  if (await study.instead(ground, typed)) return;
  const begun = await study.begin(ground, typed);
  const folder = out ?? reportFolder(name, study, file);
  checkOutputFolder(folder);
  const place = { console, folder, isJson, pool, ground };
  const outcome = study.isInPlace === true ? inPlace(place, begun) : await runWithCheckpoint(place, begun);
  await closeStudy(place, study, outcome);
}

async function runShard(
  name: string,
  study: Study,
  call: Call,
  { share, out, pool }: { readonly share: Share; readonly out: string | undefined; readonly pool: WorkerPool },
): Promise<void> {
  const { console, file, typed } = call;
  const scenario = openScenario(file, console);
  const ground = groundOf(name, study, call, () => scenario);
  const work = shareWork(await study.begin(ground, typed), share);
  const recorded = Object.entries(recordedOptions(study.options, typed));
  const options = Object.fromEntries(
    recorded.flatMap(([option, value]) => (typeof value === 'string' ? [[option, value]] : [])),
  );
  const about = { study: name, shard: share, seed: options['seed'] ?? scenario.loaded.base.seed, options };
  const folder = shardPlace(reportName(name, study, file), out, share);
  await writeShard(about, scenario, { console, pool, ground, folder }, work);
}

/** As many threads as a person wants, or as many as there are cores. */
export function poolOf(threads: number | undefined, console: Console): WorkerPool {
  return new WorkerPool(threads ?? availableParallelism(), (text) => {
    console.complain(text);
  });
}

function replicationsOf({ options }: Study, typed: Typed): number | undefined {
  const count = options['replications'].read(typed['replications'], 'replications');
  return typeof count === 'number' ? count : undefined;
}

/** Where the report of a study goes unless `--out` says otherwise. */
export function reportFolder(name: string, study: Study, file: string): string {
  return join('reports', reportName(name, study, file));
}

export function reportName(name: string, study: Study, file: string): string {
  return `${plainName(file)}${suffixOf(name, study)}`;
}

function suffixOf(name: string, { isMain }: Study): string {
  return isMain === true ? '' : `-${name}`;
}

function inPlace({ ground }: Place, work: Work<Outcome>): Outcome {
  try {
    return runInProcess(work);
  } finally {
    ground.progress.stop();
  }
}

/**
 * Makes the report and writes it, then shows the results. What somebody stopped is written beside the place of the whole.
 * @throws StoppedByHand where somebody stopped the study or its report, after what was complete is written
 */
export async function closeStudy(place: Place, { isInPlace, isExplored }: Study, outcome: Outcome): Promise<void> {
  const { console, folder, isJson, pool, ground } = place;
  const own =
    isInPlace === true ? await outcome.files() : await pool.finish((perform) => outcome.files(drawOn(perform)));
  const files = new Map([
    ...own,
    ...(isExplored === true ? [[EXPLORE_FILE, explorePageOf(ground.studied())] as const] : []),
  ]);
  // A report that is whole keeps its place.
  const where = pool.isStopped ? join(dirname(folder), `${basename(folder)}-stopped`) : folder;
  ground.refuseChanged();
  try {
    writeOutputFolder(where, files);
    ground.writeOthers();
    // What was interrupted may be gone on with.
    if (!pool.isStopped) removeCheckpoint(checkpointOf(resolve(folder)));
  } finally {
    // Where it could not be written, what it came to is at least shown.
    const shown = isJson
      ? textOf(files.get('summary.json'))
      : outcome.text(console.styles, console.columns, console.isVerbose);
    console.result(shown.trimEnd());
  }
  console.note('', `wrote ${files.size} files; open ${join(where, 'report.html')}`, ...ground.notes());
  pool.sayWhetherStopped(where);
}

function textOf(content: Content = ''): string {
  return typeof content === 'string' ? content : [...content].join('');
}
