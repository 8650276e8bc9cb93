import type { LoadedScenario } from './assemble.js';
import { fillDefaults } from './defaults.js';
import { mixedForms, replacedAt } from './edit.js';
import { type Path, startsWith } from './places.js';
import { readAs } from './problems.js';
import type { Setting } from './ranges.js';
import { type Scenario, sharedSchema } from './schema/scenario.js';
import { childOf, dataAt, entryOf, outlineOf, type Schema, schemaAt } from './schema-walk.js';
import { show } from './show.js';
import { followedAt, inPlace, isItemTaken, type LaidStrategy, type OwnValue, resolveOwn } from './strategies.js';
import { resolveValue, settingsIn } from './value-path.js';

export type Patched =
  { readonly ok: true; readonly scenario: LoadedScenario } | { readonly ok: false; readonly message: string };

/** A value for a path, both as in the assumptions. */
export interface PathValue {
  readonly path: string;
  readonly value: Setting;
}

/** A value as written, for the shared part or for one strategy alone. */
interface Patch {
  readonly strategy: number | null;
  readonly path: Path;
  readonly value: Setting;
}

/** A value that the schema or what stands beside it refuses. */
class Refusal extends Error {}

/**
 * The scenario with one value changed: in the shared part, and so in every strategy that does not override it itself, or
 * in one strategy alone. `path` and `value` as in the assumptions. What the value does not touch is shared with the scenario given,
 * so that strategies that it does not touch are the same objects as before. The register stays that of the scenario given,
 * and impossible plans are not looked for again (see `impossibleIn`). Null takes a value away.
 */
export function withValue(loaded: LoadedScenario, path: string, value: Setting): Patched {
  return withValues(loaded, [{ path, value }]);
}

/** As `withValue`, several at once: only what they come to together must be allowed. */
export function withValues(loaded: LoadedScenario, values: readonly PathValue[]): Patched {
  const patches: Patch[] = [];
  for (const { path, value } of values) {
    const resolved = resolveValue(settingsIn(loaded), path);
    if (!resolved.ok) return resolved;
    patches.push({ strategy: resolved.place.strategy, path: resolved.place.path, value });
  }
  return patched(loaded, patches);
}

/**
 * As `withValues`, but the strategy of this name alone follows the values, whatever it and the shared part say there.
 * `path` is one of the shared part, such as `rules.after`; null takes the value away, so that its default comes back.
 */
export function withOwnValues(loaded: LoadedScenario, strategy: string, values: readonly PathValue[]): Patched {
  const index = loaded.strategies.findIndex(({ name }) => name === strategy);
  if (index < 0) return { ok: false, message: 'no such strategy' };
  const patches: Patch[] = [];
  for (const { path, value } of values) {
    const resolved = resolveOwn({ ...loaded.strategies[index].settings }, path);
    if (!resolved.ok) return resolved;
    patches.push({ strategy: index, path: resolved.path, value });
  }
  return patched(loaded, patches);
}

function patched(loaded: LoadedScenario, patches: readonly Patch[]): Patched {
  const shared = patches.filter(({ strategy }) => strategy === null);
  try {
    const base = applied(loaded.base, shared, []);
    const strategies = loaded.strategies.map((strategy, index): LaidStrategy => {
      const { own, settings } = strategy;
      const followed = shared.flatMap(({ path, value }) => {
        const at = followedAt(own, path);
        return at === null ? [] : [{ path: at, value }];
      });
      const ofItsOwn = patches.filter((patch) => patch.strategy === index);
      const after = applied(settings, [...followed, ...ofItsOwn], own);
      if (after === settings) return strategy;
      const more = ofItsOwn.map(({ path, value }) => ({ target: path, takesItemAway: isItemTaken(path, value) }));
      return { ...strategy, settings: after, own: [...own, ...more] };
    });
    return { ok: true, scenario: { ...loaded, base, strategies } };
  } catch (reason) {
    if (reason instanceof Refusal) return { ok: false, message: reason.message };
    throw reason;
  }
}

type Put = Pick<Patch, 'path' | 'value'>;

/** Settings with these values put into them, below the values of a strategy's own. @throws Refusal */
function applied(settings: Scenario, puts: readonly Put[], own: readonly OwnValue[]): Scenario {
  const after = puts.reduce((before, { path, value }) => {
    const below = inPlace(own).filter(({ target }) => target.length > path.length && startsWith(target, path));
    return below.reduce((under, { target }) => laidOver(under, target, before), putInto(before, path, value));
  }, settings);
  if (after !== settings) for (const { path } of puts) checkAlong(after, path);
  return after;
}

/** Puts a value as written into settings. @throws Refusal */
function putInto(settings: Scenario, path: Path, value: Setting): Scenario {
  let schema: Schema = sharedSchema;
  let data: unknown = settings;
  for (const [depth, key] of path.entries()) {
    const inTheWay = value === null ? null : mixedForms(schema, data, key);
    const child = childOf(schema, data, key);
    const at = path.slice(0, depth + 1);
    if (inTheWay !== null || child === null) throw new Refusal(inTheWay ?? `${show(at.join('.'))} is not known`);
    const held = entryOf(data, key);
    if (at.length === path.length || held === undefined) {
      if (isItemTaken(at, value)) return replacedAt(settings, at, undefined);
      const inner = path.slice(at.length).reduceRight<unknown>((each, name) => ({ [name]: each }), value ?? undefined);
      return replacedAt(settings, at, typed(child, inner, at, settings));
    }
    [schema, data] = [child, held];
  }
  return settings;
}

/** What the schema of a place makes of a value as written. @throws Refusal */
function typed(schema: Schema, written: unknown, at: Path, settings: Scenario): unknown {
  const read = readAs(schema, fillDefaults(schema, written), at, settings);
  if (!read.ok) throw new Refusal(read.problems.at(0)?.message ?? 'it is no scenario');
  return read.value;
}

/** Puts back what a strategy has of its own at a place. @throws Refusal where it does not go with what is there now */
function laidOver(under: Scenario, target: Path, before: Scenario): Scenario {
  const holder = schemaAt(sharedSchema, under, target.slice(0, -1));
  const inTheWay =
    holder?.data === undefined
      ? 'a strategy has values of its own below it'
      : mixedForms(holder.schema, holder.data, target.at(-1) ?? '');
  if (inTheWay !== null) throw new Refusal(inTheWay);
  return replacedAt(under, target, dataAt(before, target));
}

/** Holds what stands around a patched value to the checks of values that stand together. @throws Refusal */
function checkAlong(settings: Scenario, path: Path): void {
  for (let depth = 1; depth < path.length; depth += 1) {
    const around = schemaAt(sharedSchema, settings, path.slice(0, depth));
    if (around?.data === undefined) return;
    const wrong = outlineOf(around.schema).check?.check(around.data) ?? null;
    if (wrong !== null) throw new Refusal(wrong.message);
  }
}
