import { sweepFiles, sweepText } from '../report/sweep/index.js';
import { MOST_CELLS, sweepWork } from '../study/sweep/sweep.js';
import { RANGE_HELP } from '../study/vary/range.js';
import { Failure } from './failure.js';
import { pursue } from './pursue.js';
import type { Cli } from './shared.js';
import { closeStudy, openStudy, reportFolder, STUDY_OPTIONS, strategyNamed, studyLine, variedIn } from './study.js';

const options = {
  ...STUDY_OPTIONS,
  vary: {
    type: 'string',
    array: true,
    nargs: 1,
    requiresArg: true,
    demandOption: 'which value? --vary PATH=RANGE, such as --vary pace.scan=0.6..2',
    describe: `PATH=RANGE whose settings are tried; RANGE is ${RANGE_HELP}. Given twice: every pair of settings`,
  },
  strategy: {
    type: 'string',
    requiresArg: true,
    describe: 'Sweep this strategy alone, whatever it sets itself [default: all, by the shared part]',
  },
} as const;

export function addSweep(cli: Cli): Cli {
  return cli.command(
    'sweep <file>',
    'Try a range of settings, or a grid of two, and show what becomes of time, scans lost, yield and cost',
    (command) =>
      command
        .positional('file', { type: 'string', demandOption: true, describe: 'The scenario (YAML)' })
        .options(options),
    async (given) => {
      if (given.vary.length > 2) throw new Failure('--vary can be given twice at most');
      const study = openStudy(given, options, reportFolder(given, 'sweep'));
      const strategy = given.strategy === undefined ? null : strategyNamed(study.loaded, given.strategy);
      const vary = variedIn(study.loaded, given.vary, strategy);
      checkSize(
        vary.map(({ settings }) => settings.length),
        strategy === null ? study.loaded.strategies.length : 1,
      );
      const command = studyLine('sweep', given.file, { vary: given.vary, strategy: given.strategy, seed: given.seed });
      const chosen = strategy === null ? {} : { strategy };
      const result = await pursue(study, sweepWork(study.loaded, { ...study.options, command, vary, ...chosen }));
      await closeStudy(
        study,
        (draw) => sweepFiles(result, draw),
        sweepText(result, study.console.styles, study.console.columns),
      );
    },
  );
}

function checkSize(settings: readonly number[], strategies: number): void {
  const cells = settings.reduce((product, count) => product * count, strategies);
  if (cells <= MOST_CELLS) return;
  throw new Failure(
    `--vary: ${settings.join(' × ')} settings of ${strategies} ${strategies === 1 ? 'strategy' : 'strategies'} are ${cells} cells, more than ${MOST_CELLS}; take fewer settings, such as \`LOW..HIGH in 11\``,
  );
}
