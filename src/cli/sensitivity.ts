import { sensitivityFiles, sensitivityText } from '../report/sensitivity/index.js';
import { sensitivityWork } from '../study/sensitivity/sensitivity.js';
import { pursue } from './pursue.js';
import type { Cli } from './shared.js';
import { closeStudy, openStudy, reportFolder, STUDY_OPTIONS, studyLine } from './study.js';
import { measureMeant, TWO_STRATEGIES, twoStrategies } from './two-strategies.js';

const options = {
  ...STUDY_OPTIONS,
  ...TWO_STRATEGIES,
  all: { type: 'boolean', default: false, describe: 'Try what has a source too, not only what is assumed' },
} as const;

export function addSensitivity(cli: Cli): Cli {
  return cli.command(
    'sensitivity <file>',
    'Say which assumed values decide between two strategies, and where the verdict turns',
    (command) =>
      command
        .positional('file', { type: 'string', demandOption: true, describe: 'The scenario (YAML)' })
        .options(options),
    async (given) => {
      const measure = measureMeant(given.measure);
      const study = openStudy(given, options, reportFolder(given, 'sensitivity'));
      const between = twoStrategies(study.loaded, given.between, given.and);
      const line = studyLine('sensitivity', given.file, {
        between: between[0],
        and: between[1],
        measure: measure === 'time' ? undefined : measure,
        seed: given.seed,
      });
      const command = given.all ? `${line} --all` : line;
      const result = await pursue(
        study,
        sensitivityWork(study.loaded, { ...study.options, command, between, measure, isAll: given.all }),
      );
      await closeStudy(
        study,
        (draw) => sensitivityFiles(result, draw),
        sensitivityText(result, study.console.styles, study.console.columns),
      );
    },
  );
}
