import { inspect } from 'node:util';
import yargs from 'yargs';
import { suggestion } from '../scenario/nearest.js';
import { addBudget } from './budget.js';
import { addBreakEven } from './breakeven.js';
import { addCompare } from './compare.js';
import { createConsole } from './console.js';
import { EXIT, Failure, StoppedByHand } from './failure.js';
import { addFit } from './fit.js';
import { addInit } from './init.js';
import { addLesson } from './lesson.js';
import { addMerge } from './merge.js';
import { addMidway } from './midway.js';
import { addPreview } from './preview.js';
import { addSensitivity } from './sensitivity.js';
import type { Cli } from './shared.js';
import { addSweep } from './sweep.js';
import { addTrace } from './trace.js';
import { addTune } from './tune.js';
import { addVerify } from './verify.js';
import { toolVersion } from './version.js';

const NAME = 'swap-or-hop';
const DOCUMENTATION =
  'A report is an estimate from assumptions: read what it says is only assumed before you rely on it.';

/** Every command by its name; a new one is one more line here. */
const COMMANDS = {
  init: addInit,
  fit: addFit,
  preview: addPreview,
  compare: addCompare,
  breakeven: addBreakEven,
  sweep: addSweep,
  sensitivity: addSensitivity,
  budget: addBudget,
  tune: addTune,
  midway: addMidway,
  merge: addMerge,
  trace: addTrace,
  lesson: addLesson,
  verify: (cli: Cli) => addVerify(cli, run),
} as const;
const COMMAND_NAMES = Object.keys(COMMANDS);

function noCommand(words: readonly string[]): Failure {
  if (words.length === 0) return new Failure(`which command? ${COMMAND_NAMES.join(', ')}; try "${NAME} --help"`);
  return new Failure(`unknown command \`${words[0]}\`${suggestion(words[0], COMMAND_NAMES)}`);
}

/** Options that may be given several times; of any other the last one counts. */
const REPEATED = ['vary', 'tip', 'column', 'unit', 'per', 'law', 'input', 'shards'];

/** Under these the library keeps words that belong to no option. */
const WORDS = ['_', '--'];

/** Of an option given several times keeps the last, as shells' users expect who edit the end of a line. */
function keepLast(given: Record<string, unknown>): void {
  for (const [option, value] of Object.entries(given))
    if (!WORDS.includes(option) && Array.isArray(value) && !REPEATED.includes(option)) given[option] = value.at(-1);
}

/** An option that is called like something that every object has would be taken for that by the library. */
function refuseInherited(argv: readonly string[]): void {
  const end = argv.indexOf('--');
  for (const word of end < 0 ? argv : argv.slice(0, end)) {
    const name = /^--?(?:no-)?([^=]+)/.exec(word)?.[1];
    if (name !== undefined && name in Object.prototype) throw new Failure(`unknown option --${name}`);
  }
}

/** What yargs says of a missing word or value, as a person would. */
function plainly(message: string): string {
  return (
    message
      .replace(/^Not enough non-option arguments: .*/, 'which file? Its name goes behind the command')
      // What is wanted stands below, in words.
      .replace(/^Missing required arguments?: .*\n/, '')
      .replace(/^Not enough arguments following: (.*)/, 'a value is wanted after --$1')
  );
}

/** @returns the exit code for an error, after showing it: its message alone where the user can put it right */
function explain(error: unknown, argv: readonly string[]): number {
  const console = createConsole({ color: !argv.includes('--no-color'), quiet: false });
  const label = error instanceof StoppedByHand ? console.toned('yellow', 'stopped') : console.toned('red', 'error');
  if (error instanceof Failure) {
    console.complain(...error.message.split('\n').map((line) => `${label}  ${line}`));
    return error.exitCode;
  }
  // With the causes below it: a campaign's error says which replication it was, and its cause what went wrong.
  console.complain(
    `This is a fault of ${NAME} ${toolVersion()} itself. Please report it with the scenario and these lines:`,
    ...inspect(error).split('\n'),
  );
  return EXIT.failed;
}

/** Runs the command line. @returns the exit code */
export async function run(argv: readonly string[]): Promise<number> {
  const shared = yargs(argv)
    .scriptName(NAME)
    .locale('en')
    .usage(
      '$0 <command>\n\nCompares swapping probes by hand with hopping over a chip of tips, on your measurement plan.',
    )
    .parserConfiguration({
      'camel-case-expansion': false,
      'dot-notation': false,
      'parse-numbers': false,
      'parse-positional-numbers': false,
    })
    .middleware(keepLast, true)
    .options({
      quiet: { type: 'boolean', default: false, describe: 'No progress and no notes on stderr' },
      color: { type: 'boolean', default: true, describe: 'Colours in a terminal (--no-color: none)' },
    });
  const commands = Object.values(COMMANDS).reduce((cli, add) => add(cli), shared);
  try {
    refuseInherited(argv);
    await commands
      .command('$0', false, {}, (given) => {
        throw noCommand(given._.map(String));
      })
      .group(['quiet', 'color', 'help', 'version'], 'Everywhere:')
      .epilogue(DOCUMENTATION)
      .version(toolVersion())
      .help()
      .alias({ help: 'h', version: 'V' })
      .wrap(Math.min(100, process.stdout.columns || 100))
      .exitProcess(false)
      .fail((message: string | null, error: Error | undefined) => {
        if (error !== undefined && (message === null || error instanceof Failure)) throw error;
        throw new Failure([...plainly(message ?? '').split('\n'), `Try "${NAME} --help".`]);
      })
      .parseAsync();
    return EXIT.ok;
  } catch (error) {
    return explain(error, argv);
  }
}
