import type { StudyOptions } from '../analysis/about.js';
import type { SheetRow } from '../analysis/sheet.js';
import type { Work } from '../execution/work.js';
import { type Content, type Report, reportFiles } from '../report/report.js';
import type { Draw } from '../report/pictures.js';
import type { Styles } from '../report/styles.js';
import type { LoadedScenario } from '../scenario/load.js';
import type { TextFault } from '../scenario/places.js';
import { type Options, type Typed, type ValuesOf, valuesOf } from './options.js';

/** What a file is to be, for the messages about one that is something else. */
export interface Wanted {
  /** Such as `a scenario file`. */
  readonly what: string;
  /** Such as `a scenario is a YAML file`. */
  readonly form: string;
  /** Bytes that are read at all. */
  readonly most: number;
}

/** A text file as it was read. */
export interface TextFile {
  /** As it was typed. */
  readonly file: string;
  readonly text: string;
  /** Of the bytes of the file, in hexadecimal. */
  readonly sha256: string;
}

/** One sheet of a workbook; places are its rows and columns, counted from 1. */
export interface WorkbookSheet {
  readonly name: string;
  readonly rows: readonly SheetRow[];
}

/** A table as it was read: a text, or the sheets of a workbook that have any text. */
export interface TableFile extends Omit<TextFile, 'text'> {
  readonly content: string | readonly WorkbookSheet[];
}

/** Asks somebody; the answer is without the blanks around it, and empty where only the key for a new line was pressed. */
export type Ask = (question: string) => Promise<string>;

export interface ScenarioFile extends TextFile {
  readonly loaded: LoadedScenario;
  /** What the reader of the file was warned of. */
  readonly warnings: readonly string[];
}

/** What a study begins on: the files that its command line names, a person to tell things to, and what goes on record. */
export interface Ground {
  /** The file that stands without an option, as it was typed. */
  readonly file: string;
  /** Reads a scenario, that file unless another is named; every fault of a wrong one is shown. @throws Failure */
  readonly scenario: (file?: string) => ScenarioFile;
  /**
   * Reads a scenario that is to be written into; refuses one that is read-only.
   * @param instead what else the user may do
   */
  readonly scenarioToFill: (file: string, instead: string) => ScenarioFile;
  /** Reads any file. @throws Failure where it cannot be read, or is not what is wanted */
  readonly text: (file: string, wanted: Wanted) => TextFile;
  /** Reads a table; a workbook by its sheets. @throws Failure as above */
  readonly table: (file: string, wanted: Wanted) => Promise<TableFile>;
  readonly isThere: (file: string) => boolean;
  /** Shows what is wrong in a file with its places, which in the sheet of a workbook are cells. */
  readonly show: (
    read: { readonly file: string; readonly sheet?: string | null },
    faults: readonly TextFault[],
    as: 'error' | 'not used',
  ) => void;
  readonly note: (...lines: readonly string[]) => void;
  /** Shows what was asked for in place of a study. */
  readonly result: (text: string) => void;
  /** Asks somebody who sits there; null where nobody does. */
  readonly asking: (<Result>(work: (ask: Ask) => Promise<Result>) => Promise<Result>) | null;
  /** Writes a file of the user's at once. */
  readonly write: (file: string, text: string) => void;
  /** Has a file of the user's written when the report is. */
  readonly rewrite: (rewrite: Rewrite) => void;
  /**
   * What every study takes beside its own settings.
   * @param read the file that is studied
   * @param resolved options on record by what they came to mean, whatever was typed
   */
  readonly making: (
    read: Pick<ScenarioFile, 'sha256'> & Partial<ScenarioFile>,
    resolved?: Readonly<Record<string, string>>,
  ) => StudyOptions;
}

/** A file of the user's that a study writes into when its report is written. */
export interface Rewrite {
  readonly file: string;
  /** What it is to hold. */
  readonly text: string;
  /** Of the bytes that it held when it was read; changed meanwhile, it is left alone. */
  readonly sha256: string;
  /** What is said of it afterwards. */
  readonly notes: readonly string[];
}

/** What a study came to, ready to be shown. */
export interface Outcome {
  /** Files of its report by name; without what takes long where `draw` is null. */
  readonly files: (draw?: Draw | null) => Promise<ReadonlyMap<string, Content>>;
  /** For the terminal. */
  readonly text: (styles: Styles, columns?: number, isVerbose?: boolean) => string;
}

/** Name of the page on which a plan is changed, in the folder of a report. */
export const EXPLORE_FILE = 'explore.html';

/** What a study says of itself beside its options, its way of running and its report. */
interface About {
  /** The question that it answers, as the README has it. */
  readonly question: string;
  /** What it does, in one line of help. */
  readonly does: string;
  /** The file that it studies, in a line of help; a scenario unless it says otherwise. */
  readonly file?: string;
  /** Its report is called like the file alone, without the name of the study. */
  readonly isMain?: true;
  /** Its first orders hang on `--replications` alone, so that they can be dealt out to many machines. */
  readonly isShared?: true;
  /** Beside its report lies the page on which its plan is changed and answered at once. */
  readonly isExplored?: true;
  /** It orders no campaigns, and computes where it stands. */
  readonly isInPlace?: true;
}

/** A study as the command line, `verify`, `merge`, the tests of the documents and the writing of reports know it. */
export interface Study extends About {
  readonly options: Options;
  /** Names of its files beside page, summary and charts. */
  readonly files: readonly string[];
  /** Does what the options ask for in place of the study; false where they ask for none. */
  readonly instead: (ground: Ground, typed: Typed) => Promise<boolean>;
  /** Reads its files and its options. @throws Failure where something is wrong with them */
  readonly begin: (ground: Ground, typed: Typed) => Promise<Work<Outcome>>;
}

/** A study about to run; where no campaigns are ordered, what computes its result. */
type Begun<Result> = Work<Result> | (() => Result);

/** A study as its folder declares it. */
export interface Declaration<Declared extends Options, Result> extends About {
  readonly options: Declared;
  readonly instead?: (ground: Ground, values: ValuesOf<Declared>) => Promise<boolean> | boolean;
  readonly begin: (ground: Ground, values: ValuesOf<Declared>, typed: Typed) => Promise<Begun<Result>> | Begun<Result>;
  readonly report: Report<Result>;
}

/** Declares a study. */
export function study<const Declared extends Options, Result>({
  instead,
  begin,
  report,
  ...about
}: Declaration<Declared, Result>): Study {
  return {
    ...about,
    files: [...Object.keys(report.files), ...(about.isExplored === true ? [EXPLORE_FILE] : [])],
    instead: async (ground, typed) => (await instead?.(ground, valuesOf(about.options, typed))) ?? false,
    begin: async (ground, typed) => outcomeOf(await begin(ground, valuesOf(about.options, typed), typed), report),
  };
}

function* outcomeOf<Result>(begun: Begun<Result>, report: Report<Result>): Work<Outcome> {
  const result = typeof begun === 'function' ? begun() : yield* begun;
  return {
    files: (draw) => reportFiles(report, result, draw),
    text: (styles, columns, isVerbose) => report.text(result, styles, columns, isVerbose),
  };
}
