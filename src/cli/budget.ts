import { budgetFiles, budgetText } from '../report/budget/index.js';
import { allocationText } from '../scenario/exposure.js';
import { suggestion } from '../scenario/nearest.js';
import { budgetWork } from '../study/budget/budget.js';
import { CHANCES } from '../study/budget/results.js';
import { wholeNumber } from './arguments.js';
import { Failure } from './failure.js';
import { pursue } from './pursue.js';
import type { Cli } from './shared.js';
import { closeStudy, openStudy, reportFolder, STUDY_OPTIONS, strategyNamed, studyLine } from './study.js';

const options = {
  ...STUDY_OPTIONS,
  strategy: {
    type: 'string',
    requiresArg: true,
    describe: 'Strategy that the proposal is written for [default: the first one]',
  },
  chance: {
    type: 'string',
    requiresArg: true,
    default: '90',
    describe: `Chance of finishing that the proposal asks for, in percent: ${percents().join(', ')}`,
  },
  granted: {
    type: 'string',
    requiresArg: true,
    describe: 'What comes of so much time, `3 sessions` or `20 h` [default: what the scenario grants]',
  },
  replications: { type: 'string', requiresArg: true, describe: 'Run exactly so many replications' },
} as const;

function percents(): readonly string[] {
  return CHANCES.map((chance) => String(chance * 100));
}

function chanceMeant(text: string): number {
  const chance = CHANCES.find((each) => String(each * 100) === text.replace(/\s*%$/, ''));
  if (chance !== undefined) return chance;
  throw new Failure(`--chance ${text}${suggestion(text, percents())}`);
}

export function addBudget(cli: Cli): Cli {
  return cli.command(
    'budget <file>',
    'Say how much time, tips and money to ask for, and write the text for a proposal',
    (command) =>
      command
        .positional('file', { type: 'string', demandOption: true, describe: 'The scenario (YAML)' })
        .options(options),
    async (given) => {
      const chance = chanceMeant(given.chance);
      const replications =
        given.replications === undefined
          ? undefined
          : wholeNumber('replications', given.replications, { min: 100, max: 1_000_000 });
      const granted = given.granted === undefined ? undefined : allocationText().safeParse(given.granted);
      if (granted?.success === false) throw new Failure(`--granted: ${granted.error.issues[0].message}`);
      const study = openStudy(given, options, reportFolder(given, 'budget'));
      const strategy = strategyNamed(study.loaded, given.strategy);
      const command = studyLine('budget', given.file, {
        strategy: given.strategy,
        chance: given.chance === '90' ? undefined : given.chance,
        granted: given.granted,
        seed: given.seed,
        replications: given.replications,
      });
      const result = await pursue(
        study,
        budgetWork(study.loaded, {
          ...study.options,
          command,
          strategy,
          chance,
          ...(replications === undefined ? {} : { replications }),
          ...(granted === undefined ? {} : { granted: granted.data }),
        }),
      );
      study.progress.stop();
      const files = await budgetFiles(result);
      closeStudy(study, files, budgetText(result, study.console.styles, study.console.columns));
    },
  );
}
