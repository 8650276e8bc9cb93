import { styleText } from 'node:util';
import type { WriteStream } from 'node:tty';
import type { Styles } from '../report/styles.js';
import { again } from './again.js';
import { EXIT, systemReason } from '../scenario/failure.js';
import { harmless, inOneLine } from '../scenario/harmless.js';

type Tone = Parameters<typeof styleText>[0];

/** Results go to stdout and everything else to stderr, so that either can be piped or thrown away alone. */
export interface Console {
  /** A result, on stdout. */
  result(text: string): void;
  /** Progress or "wrote …", in lines on stderr; silent when the user asked for quiet. */
  note(...lines: readonly string[]): void;
  /** What the user must see, in lines on stderr. */
  complain(...lines: readonly string[]): void;
  /** Text in a tone for stderr, where that shows colours. */
  toned(name: Tone, text: string): string;
  /** How results on stdout set off their parts. */
  readonly styles: Styles;
  /** Columns of the terminal that results go to; undefined where they go elsewhere. */
  readonly columns: number | undefined;
  /** Whether a progress bar would be seen. */
  readonly lively: boolean;
  /** Whether results are shown with all that stands below the answer. */
  readonly isVerbose: boolean;
}

export interface ConsoleOptions {
  readonly color: boolean;
  readonly quiet: boolean;
  readonly verbose: boolean;
}

/** `hasColors` knows NO_COLOR, FORCE_COLOR and TERM=dumb. */
function showsColours(stream: WriteStream, wanted: boolean): boolean {
  return wanted && stream.isTTY && stream.hasColors();
}

function tone(name: Tone, text: string, shown: boolean): string {
  return shown ? styleText(name, text, { validateStream: false }) : text;
}

export function createConsole({ color, quiet, verbose }: ConsoleOptions): Console {
  const unseen = again.getStore();
  if (unseen !== undefined) return unseenConsole(unseen.complaints, process.stderr.isTTY && !quiet);
  const toneResults = showsColours(process.stdout, color);
  const toneErrors = showsColours(process.stderr, color);
  return {
    result: (text) => void process.stdout.write(`${harmless(text, toneResults)}\n`),
    note: (...lines) => {
      if (!quiet) say(lines, false);
    },
    complain: (...lines) => {
      say(lines, toneErrors);
    },
    toned: (name, text) => tone(name, text, toneErrors),
    styles: {
      strong: (text) => tone('bold', text, toneResults),
      quiet: (text) => tone('dim', text, toneResults),
      warning: (text) => tone('yellow', text, toneResults),
    },
    columns: process.stdout.isTTY && process.stdout.columns > 0 ? process.stdout.columns : undefined,
    lively: process.stderr.isTTY && !quiet,
    isVerbose: verbose,
  };
}

function say(lines: readonly string[], mayBeToned: boolean): void {
  process.stderr.write(lines.map((line) => `${harmless(inOneLine(line), mayBeToned)}\n`).join(''));
}

/** Of a command that is run again for another one: its progress is seen, its results are not, and its complaints are kept. */
function unseenConsole(complaints: string[], lively: boolean): Console {
  const same = (text: string) => text;
  return {
    result: () => undefined,
    note: () => undefined,
    complain: (...lines) => void complaints.push(...lines),
    toned: (_, text) => text,
    styles: { strong: same, quiet: same, warning: same },
    columns: undefined,
    lively,
    isVerbose: false,
  };
}

/**
 * A reader that has seen enough (`| head`) closes the pipe; the work goes on, and its files are still written. Results
 * that go to a disk that is full are a failure, though the files of the report may be whole.
 */
export function outliveReaders(): void {
  for (const stream of [process.stdout, process.stderr]) {
    stream.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code === 'EPIPE') return;
      process.exitCode = EXIT.failed;
      if (stream === process.stdout) process.stderr.write(`error  stdout cannot be written: ${systemReason(error)}\n`);
    });
  }
}
