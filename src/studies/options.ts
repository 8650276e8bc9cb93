import { basename } from 'node:path';
import { nearest } from '../scenario/nearest.js';
import { Failure } from '../scenario/failure.js';
import { type Options as LineOptions, shellLine } from '../scenario/shell-line.js';

/** What was typed of an option: every value that it was given, in order, or whether a flag stands there. */
type TypedValue = readonly string[] | boolean | undefined;

/** Options as they were typed, by their names. */
export type Typed = Readonly<Record<string, TypedValue>>;

/** An option of a command, declared once: its help, how it is read, and what becomes of it on record. */
export interface Option<Value> {
  readonly help: string;
  /** A `list` may be given several times; of any other the last one counts. A `file` is read, and recorded by its bytes. */
  readonly kind: 'text' | 'list' | 'flag' | 'file';
  /** What stands for it where it is not given; given all the same, it is left out of the command line on record. */
  readonly usual?: string;
  /** What is asked of a person who leaves it out though it is needed. */
  readonly wanted?: string;
  /** Set where no result hangs on it, so that it is left out of the command line on record and never run again from there. */
  readonly changesNothing?: true;
  /** @throws Failure where the value cannot be meant */
  readonly read: (typed: TypedValue, name: string) => Value;
}

export type Options = Readonly<Record<string, Option<unknown>>>;

/** What a command is given of its options. */
export type ValuesOf<Declared extends Options> = {
  readonly [Name in keyof Declared]: Declared[Name] extends Option<infer Value> ? Value : never;
};

/** Reads every option that a command has. @throws Failure at the first value that cannot be meant */
export function valuesOf<Declared extends Options>(options: Declared, typed: Typed): ValuesOf<Declared>;
export function valuesOf(options: Options, typed: Typed): Readonly<Record<string, unknown>> {
  return Object.fromEntries(
    Object.entries(options).map(([name, { read }]): [string, unknown] => [name, read(typed[name], name)]),
  );
}

function textsOf(typed: TypedValue): readonly string[] {
  return typeof typed === 'object' ? typed : [];
}

function last(typed: TypedValue): string | undefined {
  return textsOf(typed).at(-1);
}

export function text(help: string): Option<string | undefined> {
  return { help, kind: 'text', read: last };
}

/** An option whose value is the name of a file. */
export function file(help: string): Option<string | undefined> {
  return { ...text(help), kind: 'file' };
}

export function flag(help: string): Option<boolean> {
  return { help, kind: 'flag', read: (typed) => typed === true };
}

/** An option that may be given several times. */
export function list(help: string, wanted?: string): Option<readonly string[]> {
  return { help, kind: 'list', ...(wanted === undefined ? {} : { wanted }), read: textsOf };
}

/** The same where all of its texts together mean something. */
export function meaningOfAll<Value>(
  help: string,
  read: (texts: readonly string[], name: string) => Value,
): Option<Value> {
  return { ...list(help), read: (typed, name) => read(textsOf(typed), name) };
}

type Read<Value> = (typed: string, name: string) => Value;

/** An option whose text means something: `usual` where it is not given, or nothing. */
export function meaning<Value>(help: string, read: Read<Value>): Option<Value | undefined>;
export function meaning<Value>(help: string, read: Read<Value>, usual: string): Option<Value>;
export function meaning<Value>(help: string, read: Read<Value>, usual?: string): Option<Value | undefined> {
  const meant = (typed: TypedValue, name: string) => {
    const given = last(typed) ?? usual;
    return given === undefined ? undefined : read(given, name);
  };
  return { help, kind: 'text', ...(usual === undefined ? {} : { usual }), read: meant };
}

export interface Bounds {
  readonly min: number;
  readonly max: number;
}

/** A whole number as a person types it; anything else is a usage error that says what is wanted. */
export function whole({ min, max }: Bounds): Read<number> {
  return (typed, name) => {
    const value = /^\d{1,15}$/.test(typed.trim()) ? Number(typed) : NaN;
    if (value >= min && value <= max) return value;
    throw new Failure(`--${name} wants a whole number from ${min} to ${max}, not "${typed}"`);
  };
}

/** A share as a person types it: `0.9`, `90 %`. */
export function share({ min, max }: Bounds): Read<number> {
  return (typed, name) => {
    const match = /^(\d+(?:\.\d+)?)\s*(%?)$/u.exec(typed.trim());
    const value = match === null ? NaN : Number(match[1]) / (match[2] === '%' ? 100 : 1);
    if (value >= min && value <= max) return value;
    const near = value > 1 && value <= 100 ? `; did you mean \`${typed.trim()} %\`?` : '';
    throw new Failure(
      `--${name} wants a share from ${min} to ${max}, such as \`0.9\` or \`90 %\`, not "${typed}"${near}`,
    );
  };
}

/** One of several words. */
export function oneOf<Choice extends string>(choices: readonly Choice[]): Read<Choice> {
  return (typed, name) => {
    const choice = choices.find((each) => each === typed);
    if (choice !== undefined) return choice;
    const near = nearest(typed, choices);
    throw new Failure(
      `--${name} wants one of ${choices.join(', ')}, not \`${typed}\`${near === null ? '' : `; did you mean \`${near}\`?`}`,
    );
  };
}

/** The same option where no result hangs on it. */
export function aside<Value>(option: Option<Value>): Option<Value> {
  return { ...option, changesNothing: true };
}

/**
 * The command line that makes the same again, wherever its files lie: every option that results hang on and that says
 * something else than is usual, flags last.
 */
export function recordedLine(command: string, fileName: string, options: Options, typed: Typed): string {
  return shellLine(command, basename(fileName), recordedOptions(options, typed));
}

/** The options of that command line. */
export function recordedOptions(options: Options, typed: Typed): LineOptions {
  const counting = Object.entries(options).filter(([, { changesNothing }]) => changesNothing !== true);
  const values = counting.flatMap(([name, { kind, usual }]): [string, string | readonly string[]][] => {
    const given = textsOf(typed[name]).map((each) => (kind === 'file' ? basename(each) : each));
    const value = given.at(-1);
    if (value === undefined || value === usual) return [];
    return [[name, kind === 'list' ? given : value]];
  });
  const flags = counting.filter(([name]) => typed[name] === true);
  const said = new Map<string, string | readonly string[] | true>(values);
  for (const [name] of flags) said.set(name, true);
  return Object.fromEntries(said);
}
