import { inspect } from 'node:util';
import yargs from 'yargs';
import { EXIT, Failure, StoppedByHand } from '../scenario/failure.js';
import { suggestion } from '../scenario/nearest.js';
import { STUDIES } from '../studies/index.js';
import { addCommand, type Command, SHARED_OPTIONS } from './command.js';
import { createConsole } from './console.js';
import { explore } from './explore.js';
import { init } from './init.js';
import { lesson } from './lesson.js';
import { log } from './log.js';
import { merge } from './merge.js';
import { preview } from './preview.js';
import { studyCommand } from './study.js';
import { trace } from './trace.js';
import { verifyCommand } from './verify.js';
import { toolVersion } from './version.js';

const NAME = 'swap-or-hop';
const DOCUMENTATION =
  'A report is an estimate from assumptions: read what it says is only assumed before you rely on it.';

/** Every command by its name: the studies, and what is beside them. */
const COMMANDS: ReadonlyMap<string, Command> = new Map([
  ...Object.entries({ init, explore, preview }),
  ...Object.entries(STUDIES).map(([name, study]): [string, Command] => [name, studyCommand(name, study)]),
  ...Object.entries({ log, merge, trace, lesson, verify: verifyCommand((argv) => run(argv)) }),
]);
const COMMAND_NAMES = [...COMMANDS.keys()];

function noCommand(words: readonly string[]): Failure {
  if (words.length === 0)
    return new Failure(`no command is given; expected one of ${COMMAND_NAMES.join(', ')}; try "${NAME} --help"`);
  return new Failure(`unknown command \`${words[0]}\`${suggestion(words[0], COMMAND_NAMES)}`);
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
      .replace(/^Not enough non-option arguments: .*/, 'missing argument `<file>`')
      // What is wanted stands below, in words.
      .replace(/^Missing required arguments?: .*\n/, '')
      .replace(/^Not enough arguments following: (.*)/, 'a value is wanted after --$1')
  );
}

/** @returns the exit code for an error, after showing it: its message alone where the user can put it right */
function explain(error: unknown, argv: readonly string[]): number {
  const console = createConsole({ color: !argv.includes('--no-color'), quiet: false, verbose: false });
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
    .options(SHARED_OPTIONS);
  for (const [name, command] of COMMANDS) addCommand(shared, name, command);
  try {
    refuseInherited(argv);
    await shared
      .command('$0', false, {}, (given: { _: readonly (string | number)[] }) => {
        throw noCommand(given._.map(String));
      })
      .group(['quiet', 'verbose', 'color', 'help', 'version'], 'Everywhere:')
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
