import type { Argv, Options as LibraryOption } from 'yargs';
import { Failure } from '../scenario/failure.js';
import { nearest } from '../scenario/nearest.js';
import { type Option, type Options, type Typed, type ValuesOf, valuesOf } from '../studies/options.js';
import { type Console, createConsole } from './console.js';

/** What a command is given: the words behind it, its options as they were typed, and where it shows what comes out. */
export interface Call {
  readonly files: readonly string[];
  /** The one word of a command that takes one. */
  readonly file: string;
  readonly typed: Typed;
  readonly console: Console;
  /** Whether the user asked for quiet. */
  readonly isQuiet: boolean;
}

/** A command of the program: its help and its options are made from this, by its name in the list of commands. */
export interface Command {
  /** What it does, in one line of help. */
  readonly does: string;
  /** The word that stands behind it without an option; several where its form ends in two dots. */
  readonly takes: { readonly form: '<file>' | '[file]' | '<shards..>'; readonly help: string };
  readonly options: Options;
  readonly run: (call: Call) => Promise<void> | void;
}

/** Declares a command that reads its own options. */
export function command<const Declared extends Options>({
  run,
  ...about
}: Omit<Command, 'options' | 'run'> & {
  readonly options: Declared;
  readonly run: (values: ValuesOf<Declared>, call: Call) => Promise<void> | void;
}): Command {
  return { ...about, run: (call) => run(valuesOf(about.options, call.typed), call) };
}

/** Options that every command has. */
export const SHARED_OPTIONS = {
  quiet: { type: 'boolean', default: false, describe: 'No progress and no notes on stderr' },
  verbose: { type: 'boolean', default: false, describe: 'Print all that was found, not the answer alone' },
  color: { type: 'boolean', default: true, describe: 'Colours in a terminal (--no-color: none)' },
} as const;

/** Names that every command knows beside its own, for the check for unknown ones. */
const SHARED_NAMES = [...Object.keys(SHARED_OPTIONS), 'help', 'h', 'version', 'V'];

/** What the library has read of a command line. */
type Given = Readonly<Record<string, unknown>> & { readonly _: readonly (string | number)[] };

export function addCommand(cli: Argv, name: string, { does, takes, options, run }: Command): Argv {
  const word = takes.form.replace(/[^a-z]/g, '');
  const isMany = takes.form.includes('..');
  return cli.command(
    `${name} ${takes.form}`,
    does,
    (each) =>
      each
        .positional(word, { type: 'string', describe: takes.help, ...(isMany ? { array: true } : {}) })
        .options(Object.fromEntries(Object.entries(options).map(([key, option]) => [key, libraryOption(option)]))),
    async (given: Given) => {
      refuseUnknown(given, [...Object.keys(options), word, ...SHARED_NAMES]);
      const typed = Object.fromEntries(Object.keys(options).map((key) => [key, typedOf(given[key])]));
      const files = textsOf(given[word]);
      const [isQuiet, verbose, color] = ['quiet', 'verbose', 'color'].map((flag) => last(given[flag]) === true);
      const console = createConsole({ color, quiet: isQuiet, verbose });
      await run({ files, file: files.at(-1) ?? '', typed, console, isQuiet });
    },
  );
}

function libraryOption({ help, kind, usual, wanted }: Option<unknown>): LibraryOption {
  if (kind === 'flag') return { type: 'boolean', default: false, describe: help };
  return {
    ...{ type: 'string', requiresArg: true, describe: help },
    ...(kind === 'list' ? { array: true, nargs: 1 } : {}),
    ...(usual === undefined ? {} : { defaultDescription: usual }),
    ...(wanted === undefined ? {} : { demandOption: wanted }),
  };
}

/** Of an option given several times that is no list the last counts, as shells' users expect who edit the end of a line. */
function typedOf(value: unknown): Typed[string] {
  const end = last(value);
  return typeof end === 'boolean' ? end : value === undefined ? undefined : textsOf(value);
}

function last(value: unknown): unknown {
  return Array.isArray(value) ? value.at(-1) : value;
}

function textsOf(value: unknown): readonly string[] {
  return [value].flat().filter((each) => typeof each === 'string');
}

function dashed(name: string): string {
  return name.length === 1 ? `-${name}` : `--${name}`;
}

/** Throws for every option or word that the command does not know, all at once, each with the nearest right one. */
function refuseUnknown(given: Given, known: readonly string[]): void {
  const options = Object.keys(given).filter((key) => key !== '_' && key !== '$0' && !known.includes(key));
  const messages = options.map((key) => {
    const near = nearest(key, known);
    return `unknown option ${dashed(key)}${near === null ? '' : `; did you mean ${dashed(near)}?`}`;
  });
  const [, ...words] = given._;
  messages.push(...words.map((word) => `unexpected argument "${word}"`));
  if (messages.length > 0) throw new Failure(messages);
}
