import { join } from 'node:path';
import { comparisonFiles, terminalText } from '../report/index.js';
import { type CompareOptions, compareWork } from '../study/compare.js';
import type { ComparisonResult } from '../study/results.js';
import type { Work } from '../study/work/work.js';
import { wholeNumber } from './arguments.js';
import { plainName } from './plain-name.js';
import { pursue } from './pursue.js';
import type { Cli } from './shared.js';
import { SHARD_OPTION, shareMeant, writeShard } from './shards/write.js';
import { closeStudy, type Ground, type OpenedStudy, openStudy, STUDY_OPTIONS, studyLine } from './study.js';

const options = {
  ...STUDY_OPTIONS,
  out: { ...STUDY_OPTIONS.out, describe: 'Folder for the report [default: reports/<name of the file>]' },
  replications: { type: 'string', requiresArg: true, describe: 'Run exactly so many replications' },
  'max-replications': {
    type: 'string',
    requiresArg: true,
    describe: 'Stop after so many at the latest [default: 20000]',
  },
  shard: SHARD_OPTION,
  draws: {
    type: 'string',
    requiresArg: true,
    describe: 'Draw what the scenario says is not known so many times [default: 200]',
  },
} as const;

const REPLICATIONS = { min: 2, max: 1_000_000 };
/** A central span of 95 % wants a few beyond either end. */
const DRAWS = { min: 40, max: 10_000 };

/** Options that results depend on, as they were typed. */
type Texts = Readonly<Partial<Record<'seed' | 'replications' | 'max-replications' | 'draws', string | undefined>>>;

/** What was asked of a comparison. */
interface Asked {
  readonly settings: Pick<CompareOptions, 'replications' | 'maxReplications' | 'draws'>;
  /** For the command line that makes the same again. */
  readonly line: Texts;
}

export function comparisonAsked({ seed, replications, draws, ...given }: Texts): Asked {
  const limit = given['max-replications'];
  return {
    settings: {
      ...(replications === undefined ? {} : { replications: wholeNumber('replications', replications, REPLICATIONS) }),
      ...(limit === undefined ? {} : { maxReplications: wholeNumber('max-replications', limit, REPLICATIONS) }),
      ...(draws === undefined ? {} : { draws: wholeNumber('draws', draws, DRAWS) }),
    },
    line: { seed, replications, 'max-replications': limit, draws },
  };
}

export function comparisonOn({ loaded, options: made }: Ground, { settings, line }: Asked): Work<ComparisonResult> {
  return compareWork(loaded, { ...made, command: studyLine('compare', made.file, line), ...settings });
}

/** Where the report of a comparison goes unless `--out` says otherwise. */
export function comparisonFolder(file: string): string {
  return join('reports', plainName(file));
}

/** Writes the report of a comparison, and shows it. */
export async function closeComparison(study: OpenedStudy, result: ComparisonResult): Promise<void> {
  const text = terminalText(result.summary, study.console.styles, study.console.columns);
  await closeStudy(study, (draw) => comparisonFiles(result, draw), text);
}

export function addCompare(cli: Cli): Cli {
  return cli.command(
    'compare <file>',
    'Run all strategies of a scenario on the same luck, print the comparison and write the report',
    (command) =>
      command
        .positional('file', { type: 'string', demandOption: true, describe: 'The scenario (YAML)' })
        .options(options),
    async (given) => {
      const asked = comparisonAsked(given);
      if (given.shard !== undefined) {
        const share = shareMeant(given.shard, asked.settings.replications);
        const { line } = asked;
        await writeShard({
          ...{ given, known: options, study: 'compare', share, line },
          work: (ground) => comparisonOn(ground, asked),
        });
        return;
      }
      const study = openStudy(given, options, given.out ?? comparisonFolder(given.file));
      await closeComparison(study, await pursue(study, comparisonOn(study, asked)));
    },
  );
}
