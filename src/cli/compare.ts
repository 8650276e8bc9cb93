import { join, parse } from 'node:path';
import { reportFiles, terminalText } from '../report/index.js';
import { compareWork } from '../study/compare.js';
import { wholeNumber } from './arguments.js';
import { pursue } from './pursue.js';
import type { Cli } from './shared.js';
import { closeStudy, openStudy, STUDY_OPTIONS, studyLine } from './study.js';

const options = {
  ...STUDY_OPTIONS,
  out: { ...STUDY_OPTIONS.out, describe: 'Folder for the report [default: reports/<name of the file>]' },
  replications: { type: 'string', requiresArg: true, describe: 'Run exactly so many replications' },
  'max-replications': {
    type: 'string',
    requiresArg: true,
    describe: 'Stop after so many at the latest [default: 20000]',
  },
  draws: {
    type: 'string',
    requiresArg: true,
    describe: 'Draw what the scenario says is not known so many times [default: 200]',
  },
} as const;

const REPLICATIONS = { min: 2, max: 1_000_000 };
/** A central span of 95 % wants a few beyond either end. */
const DRAWS = { min: 40, max: 10_000 };

export function addCompare(cli: Cli): Cli {
  return cli.command(
    'compare <file>',
    'Run all strategies of a scenario on the same luck, print the comparison and write the report',
    (command) =>
      command
        .positional('file', { type: 'string', demandOption: true, describe: 'The scenario (YAML)' })
        .options(options),
    async (given) => {
      const replications =
        given.replications === undefined ? undefined : wholeNumber('replications', given.replications, REPLICATIONS);
      const limit = given['max-replications'];
      const maxReplications = limit === undefined ? undefined : wholeNumber('max-replications', limit, REPLICATIONS);
      const draws = given.draws === undefined ? undefined : wholeNumber('draws', given.draws, DRAWS);
      const folder = given.out ?? join('reports', parse(given.file).name);
      const study = openStudy(given, options, folder);
      const { seed } = given;
      const command = studyLine('compare', given.file, {
        seed,
        replications: given.replications,
        'max-replications': limit,
        draws: given.draws,
      });
      const result = await pursue(
        study,
        compareWork(study.loaded, {
          ...study.options,
          command,
          ...(replications === undefined ? {} : { replications }),
          ...(maxReplications === undefined ? {} : { maxReplications }),
          ...(draws === undefined ? {} : { draws }),
        }),
      );
      study.progress.stop();

      const files = await reportFiles(result);
      closeStudy(study, files, terminalText(result.summary, study.console.styles, study.console.columns));
    },
  );
}
