import { type Fault, type LoadedScenario, loadScenario } from '../../scenario/load.js';

/** A scenario as the page has it, with what is wrong with it. */
export interface Setting {
  readonly text: string;
  /** Null where the text is no scenario. */
  readonly loaded: LoadedScenario | null;
  readonly faults: readonly Fault[];
}

export function settingOf(text: string): Setting {
  const read = loadScenario(text);
  return read.ok ? { text, loaded: read.scenario, faults: read.warnings } : { text, loaded: null, faults: read.faults };
}
