import { availableParallelism } from 'node:os';
import { basename, dirname, join, resolve } from 'node:path';
import type { Draw } from '../report/pictures.js';
import type { StudyOptions } from '../study/about.js';
import { readVaried, type Varied } from '../study/vary/varied.js';
import type { LoadedScenario } from '../scenario/load.js';
import { suggestion } from '../scenario/nearest.js';
import { type Options, shellLine } from '../scenario/shell-line.js';
import { wholeNumber } from './arguments.js';
import type { Console } from './console.js';
import { Failure } from './failure.js';
import { removeJournal } from './journal.js';
import { journalOf } from './neighbours.js';
import { checkOutputFolder, writeOutputFolder } from './output-folder.js';
import { plainName } from './plain-name.js';
import { createProgress, type Progress } from './progress.js';
import { openScenario, type ScenarioFile } from './scenario-file.js';
import { beginCommand, type SharedOptions } from './shared.js';
import { Crew } from './threads/crew.js';
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
  threads: {
    type: 'string',
    requiresArg: true,
    describe: 'Threads to compute on, which changes no result [default: as many as there are cores]',
  },
} as const;

/** More would only wait for each other. */
const MOST_THREADS = 256;

/** What the reader of a command line has to hand to begin a study. */
export interface Given extends SharedOptions {
  readonly _: readonly (string | number)[];
  readonly file: string;
  readonly out?: string | undefined;
  readonly seed?: string | undefined;
  readonly json: boolean;
  readonly threads?: string | undefined;
}

/** What a study is made of. */
export interface Ground {
  readonly console: Console;
  readonly loaded: LoadedScenario;
  readonly options: StudyOptions;
  readonly progress: Progress;
}

/** A study about to run: what it reads, and where its results go. */
export interface OpenedStudy extends Ground {
  readonly folder: string;
  readonly isJson: boolean;
  readonly crew: Crew;
}

/** Reads the scenario and looks at the folder before any work is done; what is wrong with either is shown at once. */
export function openStudy(given: Given, known: Readonly<Record<string, unknown>>, folder: string): OpenedStudy {
  const console = beginCommand(given, known);
  const crew = crewMeant(given.threads, console);
  const scenario = openScenario(given.file, console);
  checkOutputFolder(folder);
  return { ...groundOf(scenario, given, console), folder, isJson: given.json, crew };
}

/** As many threads as a person wants, or as many as there are cores. */
export function crewMeant(threads: string | undefined, console: Console): Crew {
  const count =
    threads === undefined ? availableParallelism() : wholeNumber('threads', threads, { min: 1, max: MOST_THREADS });
  return new Crew(count, console);
}

/** The ground of a study of a scenario that was read from a file of this name. */
export function groundOf(
  { loaded, sha256, warnings }: ScenarioFile,
  given: Pick<Given, 'file' | 'seed'>,
  console: Console,
): Ground {
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
  return { console, loaded, options, progress };
}

/** Where a command's report goes unless `--out` says otherwise. */
export function reportFolder(given: Pick<Given, 'file' | 'out'>, command: string): string {
  return given.out ?? join('reports', `${plainName(given.file)}-${command}`);
}

/**
 * Makes the report and writes it, then shows the results. What somebody stopped is written beside the place of the whole.
 * @param report makes its files, with pictures drawn by what it is given; by nothing where somebody waits
 * @throws StoppedByHand where somebody stopped the study or its report, after what was complete is written
 */
export async function closeStudy(
  { console, folder, isJson, crew }: Pick<OpenedStudy, 'console' | 'folder' | 'isJson' | 'crew'>,
  report: (draw: Draw | null) => Promise<ReadonlyMap<string, string | Iterable<string>>>,
  text: string,
): Promise<void> {
  const files = await crew.report(report);
  // A report that is whole keeps its place.
  const place = crew.isStopped ? join(dirname(folder), `${basename(folder)}-stopped`) : folder;
  try {
    writeOutputFolder(place, files);
    // What was stopped by hand may be gone on with.
    if (!crew.isStopped) removeJournal(journalOf(resolve(folder)));
  } finally {
    // Where it could not be written, what it came to is at least shown.
    console.result((isJson ? textOf(files.get('summary.json')) : text).trimEnd());
  }
  console.note('', `wrote ${files.size} files; open ${join(place, 'report.html')}`);
  crew.sayWhetherStopped(place);
}

function textOf(content: string | Iterable<string> = ''): string {
  return typeof content === 'string' ? content : [...content].join('');
}

/** The command that makes the same report again, wherever the scenario lies; an option given several times is repeated. */
export function studyLine(command: string, file: string, options: Options): string {
  return shellLine(command, basename(file), options);
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
