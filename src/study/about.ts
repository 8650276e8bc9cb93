import { SECOND } from '../kernel/clock.js';
import type { LoadedScenario } from '../scenario/load.js';
import { planSummary } from '../scenario/plan.js';
import type { Runnable } from './replicate.js';

export interface Progress {
  readonly phase: string;
  readonly done: number;
  /** How many there will be; for replications the next look, since nobody knows which look is the last. */
  readonly of: number;
}

/** What every study takes beside its own settings. */
export interface StudyOptions {
  /** In place of the scenario's own seed. */
  readonly seed?: string;
  /** Base name of the scenario file, for the record. */
  readonly file: string;
  readonly sha256: string;
  readonly toolVersion: string;
  /** What the reader of the scenario was warned of. */
  readonly warnings?: readonly string[];
  readonly onProgress?: (progress: Progress) => void;
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

/** What stands at the head of the results of every study; `format` names the study. */
export interface StudyRecord<Format extends string> {
  readonly format: Format;
  /** Raised when a field changes its meaning or goes. */
  readonly formatVersion: 1;
  readonly tool: { readonly name: string; readonly version: string };
  readonly scenario: AboutScenario;
  readonly seed: string;
}

export function recordOf<Format extends string>(
  format: Format,
  loaded: LoadedScenario,
  options: StudyOptions,
): StudyRecord<Format> {
  return {
    format,
    formatVersion: 1,
    tool: { name: 'swap-or-hop', version: options.toolVersion },
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
    regions: base.plan.regions,
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
  readonly end: number;
}

export function allocationOf({ model }: Runnable): Granted | null {
  const { allocation } = model.settings.bookings;
  if (allocation === undefined || model.allocationEnd === null) return null;
  const unit = allocation.unit === 'hour' ? 'h' : allocation.amount === 1 ? 'session' : 'sessions';
  return { text: `${allocation.amount} ${unit}`, end: (model.allocationEnd - model.start) / SECOND };
}
