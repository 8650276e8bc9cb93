import { basename, join, parse, resolve } from 'node:path';
import type { StudyOptions } from '../study/about.js';
import { readVaried, type Varied } from '../study/vary/varied.js';
import type { LoadedScenario } from '../scenario/load.js';
import { suggestion } from '../scenario/nearest.js';
import { shellLine } from './arguments.js';
import type { Console } from './console.js';
import { Failure } from './failure.js';
import { removeJournal } from './journal.js';
import { journalOf } from './neighbours.js';
import { checkOutputFolder, writeOutputFolder } from './output-folder.js';
import { createProgress, type Progress } from './progress.js';
import { openScenario } from './scenario-file.js';
import { beginCommand, type SharedOptions } from './shared.js';
import { recordedHere } from './version.js';

/** Options of every command that studies a scenario. */
export const STUDY_OPTIONS = {
  out: {
    type: 'string',
    requiresArg: true,
    describe: 'Folder for the report [default: reports/<name of the file>-<command>]',
  },
  seed: { type: 'string', requiresArg: true, describe: 'Seed text in place of that of the scenario' },
  json: { type: 'boolean', default: false, describe: 'Print summary.json on stdout in place of the table' },
} as const;

/** What the reader of a command line has to hand to begin a study. */
interface Given extends SharedOptions {
  readonly _: readonly (string | number)[];
  readonly file: string;
  readonly out?: string | undefined;
  readonly seed?: string | undefined;
  readonly json: boolean;
}

/** A study about to run: what it reads, and where its results go. */
export interface OpenedStudy {
  readonly console: Console;
  readonly loaded: LoadedScenario;
  readonly options: StudyOptions;
  readonly progress: Progress;
  readonly folder: string;
  readonly isJson: boolean;
}

/** Reads the scenario and looks at the folder before any work is done; what is wrong with either is shown at once. */
export function openStudy(given: Given, known: Readonly<Record<string, unknown>>, folder: string): OpenedStudy {
  const console = beginCommand(given, known);
  const { loaded, sha256, warnings } = openScenario(given.file, console);
  checkOutputFolder(folder);
  const progress = createProgress(console);
  const options: StudyOptions = {
    ...(given.seed === undefined ? {} : { seed: given.seed }),
    file: basename(given.file),
    sha256,
    warnings,
    ...recordedHere(),
    onProgress: ({ phase, done, of }) => {
      progress.update(phase, done, of);
    },
  };
  return { console, loaded, options, progress, folder, isJson: given.json };
}

/** Where a command's report goes unless `--out` says otherwise. */
export function reportFolder(given: Pick<Given, 'file' | 'out'>, command: string): string {
  return given.out ?? join('reports', `${parse(given.file).name}-${command}`);
}

/** Writes the report, then shows the results. */
export function closeStudy(
  { console, folder, isJson }: Pick<OpenedStudy, 'console' | 'folder' | 'isJson'>,
  files: ReadonlyMap<string, string>,
  text: string,
): void {
  writeOutputFolder(folder, files);
  removeJournal(journalOf(resolve(folder)));
  console.result((isJson ? (files.get('summary.json') ?? '') : text).trimEnd());
  console.note(`\nwrote ${files.size} files; open ${join(folder, 'report.html')}`);
}

/** The command that makes the same report again, wherever the scenario lies; an option given several times is repeated. */
export function studyLine(
  command: string,
  file: string,
  options: Readonly<Record<string, string | readonly string[] | undefined>>,
): string {
  return shellLine('swap-or-hop', command, basename(file), options);
}

/** The name of a strategy, the first one where none is given; an unknown one is a usage error. */
export function strategyNamed(loaded: LoadedScenario, wanted: string | undefined): string {
  const names = loaded.strategies.map(({ name }) => name);
  const chosen = wanted ?? names[0];
  if (names.includes(chosen)) return chosen;
  throw new Failure(`no strategy is called \`${chosen}\`${suggestion(chosen, names)}`);
}

/** The values to vary, each as `PATH=RANGE`; one that leads nowhere or is refused by the schema is a usage error. */
export function variedIn(loaded: LoadedScenario, texts: readonly string[], strategy: string | null): readonly Varied[] {
  return texts.map((text) => {
    const reading = readVaried(loaded, text, strategy);
    if (!reading.ok) throw new Failure(`--vary ${reading.message}`);
    return reading.value;
  });
}
