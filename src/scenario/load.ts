import { readDocument } from './document.js';
import { assembled, enter, type LoadedScenario, withDefaults } from './assemble.js';
import {
  checkCurrencies,
  checkPaths,
  checkRanges,
  checkStrategyNames,
  checkUnusedKinds,
  currencyOf,
} from './checks/shared.js';
import { endingRanges } from './checks/ending-ranges.js';
import { runChecks } from './checks/run.js';
import { Faults, type Fault } from './faults.js';
import { registerOf } from './register.js';
import { MOST_STRATEGIES } from './schema/scenario.js';
import type { RawMap } from './schema-walk.js';
import { overlays } from './strategies.js';
import { readUncertainties } from './uncertainty.js';
import { writtenIn } from './value-path.js';

export type { Fault } from './faults.js';
export type { LoadedScenario } from './assemble.js';
export type { Strategy } from './strategies.js';
export { type PathValue, withOwnValues, withValue, withValues } from './patch.js';

export type Loaded =
  | { readonly ok: true; readonly scenario: LoadedScenario; readonly warnings: readonly Fault[] }
  | { readonly ok: false; readonly faults: readonly Fault[] };

/**
 * Reads and checks a scenario file's text. Gives the scenario with every default filled in and every unit gone, or every
 * value that is wrong at once; what does not go together is told once each value for itself is right.
 */
export function loadScenario(text: string): Loaded {
  const document = readDocument(text);
  if (!document.ok) {
    const faults = new Faults(null);
    for (const fault of document.faults) faults.addAt(fault, '', fault.message);
    return { ok: false, faults: faults.sorted() };
  }
  return loadRaw(document.raw, new Faults(document.places));
}

/** The same of a scenario that is data already; without places, its faults have none. */
export function loadRaw(raw: RawMap, faults = new Faults(null)): Loaded {
  const scenario = checked(raw, faults);
  if (scenario === null || faults.anyError) return { ok: false, faults: faults.sorted() };
  return { ok: true, scenario, warnings: faults.sorted() };
}

function checked(raw: RawMap, faults: Faults): LoadedScenario | null {
  const filled = withDefaults(raw);
  const overlaid = overlays(filled, MOST_STRATEGIES);
  const written = writtenIn(filled, overlaid);
  const read = assembled(filled, overlaid, faults);
  checkPaths(written, faults);
  const { inputs, problems } = readUncertainties(filled, overlaid);
  for (const problem of problems) enter(problem, filled, faults);
  const isWhole = !faults.anyError;
  checkStrategyNames(filled, faults);
  checkCurrencies(filled, faults);
  if (read === null || !isWhole) return null;
  const { base, strategies } = read;
  const scenario: LoadedScenario = {
    base,
    strategies: strategies.map(({ name, workflow, settings, own }) => ({ name, workflow, settings, own })),
    register: registerOf(raw, filled, overlaid, inputs),
    inputs,
    currency: currencyOf(filled),
  };
  runChecks(strategies, faults);
  checkUnusedKinds(scenario, faults);
  checkRanges(scenario, written, faults);
  return { ...scenario, register: endingRanges(scenario, written, faults) };
}
