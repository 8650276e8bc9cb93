import { withCache } from '../execution/cache.js';
import { Failure } from '../scenario/failure.js';
import { studyNamed } from '../studies/index.js';
import { command } from './command.js';
import { groundOf } from './ground.js';
import { checkOutputFolder } from './output-folder.js';
import { runWithCheckpoint } from './run-with-checkpoint.js';
import { checkScenario } from './scenario-file.js';
import { inOrder } from './shards/agree.js';
import { openShard, resultsIn, type Shard } from './shards/open.js';
import { closeStudy, poolOf, reportFolder, RUN_OPTIONS } from './study.js';
import { recordedHere } from './version.js';

export const merge = command({
  does: 'Put the shards of a study together: the report is that of one run, to the byte',
  takes: { form: '<shards..>', help: 'The files that --shard wrote, all of them, in any order' },
  options: RUN_OPTIONS,
  run: async ({ out, json: isJson, threads }, { files, console }) => {
    const pool = poolOf(threads, console);
    const { toolVersion: version, commit } = recordedHere();
    const shards = inOrder(opened(files), { name: 'swap-or-hop', version, commit });
    const [{ file: shard, about, scenario: text }] = shards;
    const study = studyNamed(about.study);
    if (study?.isShared !== true) throw new Failure(`${shard}: no study \`${about.study}\` can be merged`);
    const { file, sha256 } = about.scenario;
    const folder = out ?? reportFolder(about.study, study, file);
    checkOutputFolder(folder);
    const typed = Object.fromEntries(Object.entries(about.options).map(([name, value]) => [name, [value]]));
    const scenario = checkScenario({ file, text, sha256 }, console);
    const ground = groundOf(about.study, study, { file, typed, console }, () => scenario);
    const place = { console, folder, isJson, pool, ground };
    try {
      const work = withCache(await study.begin(ground, typed), resultsIn(shards));
      await closeStudy(place, study, await runWithCheckpoint(place, work));
    } finally {
      // A bar that still moves would keep the program alive.
      ground.progress.stop();
    }
  },
});

/** All files, each of which must be a whole shard; those that are not are shown at once. */
function opened(files: readonly string[]): readonly Shard[] {
  const problems: string[] = [];
  const shards = files.flatMap((file) => {
    try {
      return [openShard(file)];
    } catch (error) {
      if (!(error instanceof Failure)) throw error;
      problems.push(error.message);
      return [];
    }
  });
  if (problems.length > 0) throw new Failure(problems);
  return shards;
}
