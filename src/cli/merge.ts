import type { Work } from '../study/work/work.js';
import { budgetAsked, budgetOn, closeBudget } from './budget.js';
import { closeComparison, comparisonAsked, comparisonFolder, comparisonOn } from './compare.js';
import { Failure } from './failure.js';
import { checkOutputFolder } from './output-folder.js';
import { pursue } from './pursue.js';
import { checkScenario } from './scenario-file.js';
import { beginCommand, type Cli } from './shared.js';
import { inOrder } from './shards/agree.js';
import { fromShards } from './shards/from-shards.js';
import { openShard, type Shard } from './shards/open.js';
import { crewMeant, groundOf, type OpenedStudy, reportFolder, STUDY_OPTIONS } from './study.js';
import { recordedHere } from './version.js';

const options = {
  out: { ...STUDY_OPTIONS.out, describe: 'Folder for the report [default: that of the study]' },
  json: STUDY_OPTIONS.json,
  threads: STUDY_OPTIONS.threads,
} as const;

export function addMerge(cli: Cli): Cli {
  return cli.command(
    'merge <shards..>',
    'Put the shards of a study together: the report is that of one run, to the byte',
    (command) =>
      command
        .positional('shards', {
          type: 'string',
          array: true,
          demandOption: true,
          describe: 'The files that --shard wrote, all of them, in any order',
        })
        .options(options),
    async (given) => {
      const console = beginCommand(given, { ...options, shards: true });
      const crew = crewMeant(given.threads, console);
      const { toolVersion: version, commit } = recordedHere();
      const shards = inOrder(opened(given.shards), { name: 'swap-or-hop', version, commit });
      const [{ about, scenario: text }] = shards;
      const { file, sha256 } = about.scenario;
      const { out } = given;
      const folder = out ?? (about.study === 'compare' ? comparisonFolder(file) : reportFolder({ file }, about.study));
      checkOutputFolder(folder);
      const { seed } = about.options;
      const ground = groundOf(checkScenario(file, { text, sha256 }, console), { file, seed }, console);
      await mergeInto({ ...ground, folder, isJson: given.json, crew }, shards);
    },
  );
}

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

async function mergeInto(study: OpenedStudy, shards: readonly Shard[]): Promise<void> {
  const [{ about }] = shards;
  const run = async <Result>(work: Work<Result>) => {
    try {
      return await pursue(study, await fromShards(work, shards));
    } finally {
      // A bar that still moves would keep the program alive.
      study.progress.stop();
    }
  };
  switch (about.study) {
    case 'compare':
      await closeComparison(study, await run(comparisonOn(study, comparisonAsked(about.options))));
      return;
    case 'budget':
      await closeBudget(study, await run(budgetOn(study, budgetAsked(about.options))));
  }
}
