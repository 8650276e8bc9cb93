import { assembleFilled, type LoadedScenario } from './assemble.js';
import { copyOf, writeAt } from './edit.js';
import { type Fault, Faults } from './faults.js';
import { resolvePath } from './paths.js';
import type { Written } from './ranges.js';
import { scenarioSchema } from './schema/scenario.js';

export type Changed =
  { readonly ok: true; readonly scenario: LoadedScenario } | { readonly ok: false; readonly faults: readonly Fault[] };

/**
 * The scenario with one value changed in the shared part, and so in every strategy that does not override it itself.
 * `path` and `value` as in the register. The register stays that of the scenario given, and impossible plans are not
 * looked for again; a value that the schema refuses gives faults without places.
 */
export function withValue(loaded: LoadedScenario, path: string, value: Written): Changed {
  const faults = new Faults(null);
  const filled = copyOf(loaded.raw);
  const resolved = resolvePath(scenarioSchema, filled, path);
  const wrong = resolved.ok ? writeAt(scenarioSchema, filled, resolved.path, value) : resolved.message;
  if (wrong !== null) faults.addAt({ line: 1, column: 1 }, path, wrong);
  const assembled = wrong === null ? assembleFilled(filled, faults) : null;
  if (assembled === null || faults.anyError) return { ok: false, faults: faults.sorted() };
  return { ok: true, scenario: { ...loaded, base: assembled.base, strategies: assembled.strategies, raw: filled } };
}
