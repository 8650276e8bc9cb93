import { SECOND } from '../kernel/clock.js';
import type { LoadedScenario } from '../scenario/load.js';
import { planSummary } from '../scenario/plan.js';
import { regionCount, samplesOf } from '../scenario/samples.js';
import type { OnProgress } from '../execution/progress.js';
import type { Runnable } from '../execution/replicate.js';

/** A file that a study was made from. */
export interface InputFile {
  /** How the command line names it: `file` for the one that stands without an option, else the option, such as `done`. */
  readonly option: string;
  /** Base name. */
  readonly file: string;
  /** Of its bytes, in hexadecimal. */
  readonly sha256: string;
}

/** The machine that a study was made on. Of all that is recorded it alone differs between machines. */
export interface Platform {
  readonly system: string;
  readonly architecture: string;
  /** Version of the engine. */
  readonly node: string;
}

/** What a study is made from, with what and where, as it is put on record. */
export interface Making {
  /** Base name of the scenario, or of the log that is studied. */
  readonly file: string;
  readonly sha256: string;
  /** Files read beside that one. */
  readonly inputs?: readonly InputFile[];
  readonly toolVersion: string;
  /** Of the source that the program was built from, where that is known. */
  readonly commit?: string | null;
  /** The line that makes the same again, wherever its files lie; options that change no result are left out of it. */
  readonly command?: string;
  readonly platform?: Platform;
}

/** The program and the machine. */
export type Maker = Required<Pick<Making, 'toolVersion' | 'commit' | 'platform'>>;

/** What every study takes beside its own settings. */
export interface StudyOptions extends Making {
  /** In place of the scenario's own seed. */
  readonly seed?: string;
  /** What the reader of the scenario was warned of. */
  readonly warnings?: readonly string[];
  readonly onProgress?: OnProgress;
}

/** The scenario that a study was made of. */
export interface AboutScenario {
  readonly title: string;
  readonly about: string | null;
  /** Base name of the file read. */
  readonly file: string;
  readonly sha256: string;
  readonly currency: string;
  readonly cautions: readonly string[];
  readonly order: string;
  /** Names of the samples, in the order in which they are measured. */
  readonly samples: readonly string[];
  /** Of all samples. */
  readonly regions: number;
  readonly passes: readonly string[];
  readonly images: number;
  /** Of one take of every image at the first strategy's pace, in seconds. */
  readonly scanTime: number;
  /** In millimetres. */
  readonly slidingPath: number;
  readonly instruments: number;
  readonly operators: number;
  readonly bookings: string;
}

/** The program that made a study; `commit` is null where it is not known. */
export interface Tool {
  readonly name: string;
  readonly version: string;
  readonly commit: string | null;
}

/** Who made a study, with what, from what and where: enough to make it again, and to tell whether it is the same. */
export interface Provenance {
  readonly tool: Tool;
  /** Null where no command line made it. */
  readonly command: string | null;
  /** Null where nobody says. */
  readonly platform: Platform | null;
  /** Every file that was read, the one that is studied first. */
  readonly inputs: readonly InputFile[];
}

/** What stands at the head of the results of every study; `format` names the study. */
export interface StudyRecord<Format extends string> extends Provenance {
  readonly format: Format;
  /** Raised when a field changes its meaning or goes. */
  readonly formatVersion: 2;
  readonly scenario: AboutScenario;
  readonly seed: string;
}

export function provenanceOf({ file, sha256, inputs = [], toolVersion, ...making }: Making): Provenance {
  return {
    tool: { name: 'swap-or-hop', version: toolVersion, commit: making.commit ?? null },
    command: making.command ?? null,
    platform: making.platform ?? null,
    inputs: [{ option: 'file', file, sha256 }, ...inputs],
  };
}

export function recordOf<Format extends string>(
  format: Format,
  loaded: LoadedScenario,
  options: StudyOptions,
): StudyRecord<Format> {
  return {
    format,
    formatVersion: 2,
    ...provenanceOf(options),
    scenario: aboutScenario(loaded, options),
    seed: options.seed ?? loaded.base.seed,
  };
}

function aboutScenario(loaded: LoadedScenario, options: StudyOptions): AboutScenario {
  const { base, strategies } = loaded;
  const [first] = strategies;
  const plan = planSummary(first.settings, first.workflow);
  return {
    title: base.title,
    about: base.about ?? null,
    file: options.file,
    sha256: options.sha256,
    currency: loaded.currency,
    cautions: base.cautions,
    order: base.plan.order,
    samples: samplesOf(base.plan).map(({ name }) => name),
    regions: regionCount(base.plan),
    passes: base.plan.passes.map(({ name }) => name),
    images: plan.images,
    scanTime: plan.scanTime,
    slidingPath: plan.path,
    instruments: base.instruments,
    operators: base.operators.count,
    bookings: loaded.register.find(({ path }) => path === 'bookings.hours')?.value ?? 'always',
  };
}

/** Granted time in words, and its end in seconds from the start. */
export interface Granted {
  readonly text: string;
  readonly unit: 'hour' | 'session';
  readonly end: number;
}

export function allocationOf({ model }: Runnable): Granted | null {
  const { allocation } = model.settings.bookings;
  if (allocation === undefined || model.allocationEnd === null) return null;
  const { unit, amount } = allocation;
  const word = unit === 'hour' ? 'h' : amount === 1 ? 'session' : 'sessions';
  return { text: `${amount} ${word}`, unit, end: (model.allocationEnd - model.start) / SECOND };
}
