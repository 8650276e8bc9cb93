import { budgetFiles, budgetText } from '../report/budget/index.js';
import { allocationText } from '../scenario/exposure.js';
import { nearest } from '../scenario/nearest.js';
import { type BudgetOptions, budgetWork } from '../study/budget/budget.js';
import { type BudgetResult, CHANCES } from '../study/budget/results.js';
import type { Work } from '../study/work/work.js';
import { wholeNumber } from './arguments.js';
import { Failure } from './failure.js';
import { pursue } from './pursue.js';
import type { Cli } from './shared.js';
import { SHARD_OPTION, shareMeant, writeShard } from './shards/write.js';
import {
  closeStudy,
  type Ground,
  type OpenedStudy,
  openStudy,
  reportFolder,
  STUDY_OPTIONS,
  strategyNamed,
  studyLine,
} from './study.js';

const USUAL_CHANCE = '90';

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
    default: USUAL_CHANCE,
    describe: `Chance of finishing that the proposal asks for, in percent: ${percents().join(', ')}`,
  },
  granted: {
    type: 'string',
    requiresArg: true,
    describe: 'What comes of so much time, `3 sessions` or `20 h` [default: what the scenario grants]',
  },
  replications: { type: 'string', requiresArg: true, describe: 'Run exactly so many replications' },
  shard: SHARD_OPTION,
} as const;

function percents(): readonly string[] {
  return CHANCES.map((chance) => String(chance * 100));
}

function chanceMeant(text: string): number {
  const chance = CHANCES.find((each) => String(each * 100) === text.replace(/\s*%$/, ''));
  if (chance !== undefined) return chance;
  const near = nearest(text, percents());
  const meant = near === null ? '' : `; did you mean \`${near}\`?`;
  throw new Failure(`--chance ${text}: one of ${percents().join(', ')} is wanted${meant}`);
}

/** Options that results depend on, as they were typed. */
type Texts = Readonly<Partial<Record<'strategy' | 'chance' | 'granted' | 'seed' | 'replications', string | undefined>>>;

/** What was asked of a budget; whether there is such a strategy the scenario tells. */
interface Asked {
  readonly settings: Pick<BudgetOptions, 'chance' | 'granted' | 'replications'>;
  /** For the command line that makes the same again. */
  readonly line: Texts;
}

export function budgetAsked({ strategy, chance = USUAL_CHANCE, granted, seed, replications }: Texts): Asked {
  const allocation = granted === undefined ? undefined : allocationText().safeParse(granted);
  if (allocation?.success === false) throw new Failure(`--granted: ${allocation.error.issues[0].message}`);
  return {
    settings: {
      chance: chanceMeant(chance),
      ...(replications === undefined
        ? {}
        : { replications: wholeNumber('replications', replications, { min: 100, max: 1_000_000 }) }),
      ...(allocation === undefined ? {} : { granted: allocation.data }),
    },
    line: { strategy, chance: chance === USUAL_CHANCE ? undefined : chance, granted, seed, replications },
  };
}

export function budgetOn({ loaded, options: made }: Ground, { settings, line }: Asked): Work<BudgetResult> {
  const strategy = strategyNamed(loaded, line.strategy);
  return budgetWork(loaded, { ...made, command: studyLine('budget', made.file, line), strategy, ...settings });
}

/** Writes the report of a budget, and shows it. */
export async function closeBudget(study: OpenedStudy, result: BudgetResult): Promise<void> {
  const text = budgetText(result, study.console.styles, study.console.columns);
  await closeStudy(study, (draw) => budgetFiles(result, draw), text);
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
      const asked = budgetAsked(given);
      if (given.shard !== undefined) {
        const share = shareMeant(given.shard, asked.settings.replications);
        const { line } = asked;
        await writeShard({
          ...{ given, known: options, study: 'budget', share, line },
          work: (ground) => budgetOn(ground, asked),
        });
        return;
      }
      const study = openStudy(given, options, reportFolder(given, 'budget'));
      await closeBudget(study, await pursue(study, budgetOn(study, asked)));
    },
  );
}
