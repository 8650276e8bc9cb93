import { readDocument } from './document.js';
import { assembleFilled, type LoadedScenario, withDefaults } from './assemble.js';
import { checkCurrencies, checkPaths, checkRanges, checkStrategyNames, checkUnusedKinds } from './checks/shared.js';
import { runChecks } from './checks/run.js';
import { checkUncertainties } from './checks/uncertainty.js';
import { currencyOf } from './currency.js';
import { checkWhatIsSound } from './partial.js';
import { registerOf } from './register.js';
import type { RawMap } from './schema-walk.js';
import { Faults, type Fault } from './faults.js';

export type { Fault } from './faults.js';
export type { LoadedScenario, Strategy } from './assemble.js';
export { withOwnValue, withValue } from './with-value.js';

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
  const scenario = checked(document.raw, faults);
  if (scenario === null || faults.anyError) return { ok: false, faults: faults.sorted() };
  return { ok: true, scenario, warnings: faults.sorted() };
}

function checked(raw: RawMap, faults: Faults): LoadedScenario | null {
  const filled = withDefaults(raw);
  const assembled = assembleFilled(filled, faults);
  checkPaths(filled, faults);
  checkUncertainties(filled, faults);
  const isWhole = !faults.anyError;
  checkStrategyNames(filled, faults);
  checkCurrencies(filled, faults);
  if (assembled === null || !isWhole) {
    checkWhatIsSound(filled, raw, faults);
    return null;
  }
  const { base, strategies } = assembled;
  const scenario = { base, strategies, register: registerOf(raw, filled), currency: currencyOf(filled), raw: filled };
  runChecks(assembled.followed, faults);
  checkUnusedKinds(base, strategies, faults);
  checkRanges(scenario, faults);
  return scenario;
}
