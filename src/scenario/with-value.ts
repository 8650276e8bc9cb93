import { assembleFilled, type LoadedScenario, type Strategy } from './assemble.js';
import { copyOf, writeAt } from './edit.js';
import { type Fault, Faults } from './faults.js';
import { resolvePath, writtenPath } from './paths.js';
import type { Setting } from './ranges.js';
import { type Scenario, scenarioSchema, sharedSchema } from './schema/scenario.js';
import { entryOf, isMap, type RawMap } from './schema-walk.js';
import { isPart, overlay, type Part } from './strategies.js';
import { resolveValue, type ValuePlace } from './value-path.js';

export type Changed =
  { readonly ok: true; readonly scenario: LoadedScenario } | { readonly ok: false; readonly faults: readonly Fault[] };

/** A value for a path, both as in the register. */
export interface PathValue {
  readonly path: string;
  readonly value: Setting;
}

interface Change extends PathValue {
  readonly place: ValuePlace;
}

/**
 * The scenario with one value changed: in the shared part, and so in every strategy that does not override it itself, or
 * in one strategy alone. `path` and `value` as in the register. The settings of strategies that it does not touch are the
 * same objects as before. The register stays that of the scenario given, and impossible plans are not looked for again (see
 * `impossibleIn`); a value that the schema refuses gives faults without places. Null takes a value away.
 */
export function withValue(loaded: LoadedScenario, path: string, value: Setting): Changed {
  return withValues(loaded, [{ path, value }]);
}

/** As `withValue`, several at once: only what they come to together must be allowed. */
export function withValues(loaded: LoadedScenario, values: readonly PathValue[]): Changed {
  const changes: Change[] = [];
  for (const { path, value } of values) {
    const resolved = resolveValue(loaded.raw, path);
    if (!resolved.ok) return refused(path, resolved.message);
    changes.push({ path, value, place: resolved.place });
  }
  return changed(loaded, changes);
}

/**
 * As `withValue`, but the strategy of this name alone follows the value, whatever it and the shared part say there.
 * `path` is one of the shared part, such as `rules.after`; null takes the value away, so that its default comes back.
 */
export function withOwnValue(loaded: LoadedScenario, strategy: string, path: string, value: Setting): Changed {
  const index = loaded.strategies.findIndex(({ name }) => name === strategy);
  if (index < 0) return refused(path, 'no such strategy');
  const { raw } = overlay(loaded.raw, index);
  const resolved = resolvePath(sharedSchema, raw, path);
  if (!resolved.ok) return refused(path, resolved.message);
  return changed(loaded, [{ path, value, place: { strategy: index, path: resolved.path, document: raw } }]);
}

function changed(loaded: LoadedScenario, changes: readonly Change[]): Changed {
  const raw = copyOf(loaded.raw);
  for (const { path, value, place } of changes) {
    const wrong =
      place.strategy === null
        ? writeAt(scenarioSchema, raw, place.path, value)
        : setOwn(raw, place.strategy, place, value);
    if (wrong !== null) return refused(path, wrong);
  }
  // Values of one part mostly come together: it is parsed once.
  const parts = new Map(
    changes.map(({ place: { strategy, path } }) => [`${strategy} ${path[0]}`, [path[0], strategy]] as const),
  );
  let quick: LoadedScenario | null = loaded;
  for (const [part, strategy] of parts.values())
    quick = quick !== null && isPart(part) ? withPart(quick, raw, part, strategy) : null;
  return quick === null ? assembledAnew(loaded, raw) : { ok: true, scenario: quick };
}

function refused(path: string, message: string): Changed {
  const faults = new Faults(null);
  faults.addAt({ line: 1, column: 1 }, path, message);
  return { ok: false, faults: faults.sorted() };
}

function assembledAnew(loaded: LoadedScenario, raw: RawMap): Changed {
  const faults = new Faults(null);
  const assembled = assembleFilled(raw, faults);
  if (assembled === null || faults.anyError) return { ok: false, faults: faults.sorted() };
  return { ok: true, scenario: { ...loaded, base: assembled.base, strategies: assembled.strategies, raw } };
}

/** Has a strategy set a value of its own, after all that it sets already. Gives null, or what is in the way. */
function setOwn(raw: RawMap, strategy: number, { path, document }: ValuePlace, value: Setting): string | null {
  const written: unknown = entryOf(raw['strategies'], strategy);
  if (!isMap(written)) return 'no such strategy';
  const text = writtenPath(document, path);
  const set = isMap(written['set']) ? written['set'] : {};
  Reflect.deleteProperty(set, text);
  set[text] = value;
  written['set'] = set;
  return null;
}

/**
 * Parses again only the part in which the value stands, as parts know nothing of each other. Null where the schema refuses
 * it: then the whole is gone through for what to say about it.
 */
function withPart(loaded: LoadedScenario, raw: RawMap, part: Part, only: number | null): LoadedScenario | null {
  const base = only === null ? parsedPart(loaded.base, part, raw[part]) : loaded.base;
  if (base === null) return null;
  const strategies: Strategy[] = [];
  for (const [index, strategy] of loaded.strategies.entries()) {
    const settings =
      only === null || only === index ? laidOver(strategy.settings, base, raw, index, part) : strategy.settings;
    if (settings === null) return null;
    strategies.push(settings === strategy.settings ? strategy : { ...strategy, settings });
  }
  return { ...loaded, base, strategies, raw };
}

function laidOver(settings: Scenario, base: Scenario, raw: RawMap, index: number, part: Part): Scenario | null {
  const { raw: own, overrides, problems } = overlay(raw, index, part);
  if (problems.length > 0) return null;
  return overrides.length === 0 ? withParsed(settings, part, base[part]) : parsedPart(settings, part, own[part]);
}

function parsedPart(settings: Scenario, part: Part, written: unknown): Scenario | null {
  const parsed = scenarioSchema.shape[part].safeParse(written);
  return parsed.success ? withParsed(settings, part, parsed.data) : null;
}

/** Settings with one part put for another; the very same where that changes nothing. */
function withParsed(settings: Scenario, part: Part, parsed: Scenario[Part]): Scenario {
  return JSON.stringify(parsed) === JSON.stringify(settings[part]) ? settings : { ...settings, [part]: parsed };
}
