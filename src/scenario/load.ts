import { readDocument } from './document.js';
import { assemble, type LoadedScenario } from './assemble.js';
import { Faults, type Fault } from './faults.js';

export type { Fault } from './faults.js';
export type { LoadedScenario, Strategy } from './assemble.js';

export type Loaded =
  | { readonly ok: true; readonly scenario: LoadedScenario; readonly warnings: readonly Fault[] }
  | { readonly ok: false; readonly faults: readonly Fault[] };

/** Reads and checks a scenario file's text. Gives the scenario with every default filled in and every unit gone, or every fault at once. */
export function loadScenario(text: string): Loaded {
  const document = readDocument(text);
  if (!document.ok) {
    const faults = new Faults(null);
    for (const fault of document.faults) faults.addAt(fault, '', fault.message);
    return { ok: false, faults: faults.sorted() };
  }
  const faults = new Faults(document.places);
  const scenario = assemble(document.raw, faults);
  if (scenario === null || faults.anyError) return { ok: false, faults: faults.sorted() };
  return { ok: true, scenario, warnings: faults.sorted() };
}
