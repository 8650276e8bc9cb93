import { entriesBelow, replacedAt, writtenInto } from './edit.js';
import { fillDefaults } from './defaults.js';
import { resolvePath } from './paths.js';
import { type Path, startsWith } from './places.js';
import type { Problem } from './problems.js';
import { type Scenario, scenarioSchema, sharedSchema, type WorkflowName } from './schema/scenario.js';
import { entryOf, isMap, type RawMap } from './schema-walk.js';
import { show } from './show.js';

/** A value that a strategy has of its own: where it goes, as lists stood when it was laid over. */
export interface OwnValue {
  readonly target: Path;
  /** It takes an item of a list away, in whose place the next one then stands. */
  readonly takesItemAway: boolean;
}

/** The same where the lists of the strategy's scenario have become what they are, and where the file says so. */
export interface Override extends OwnValue {
  readonly writtenAt: Path;
}

/** One workflow, with the whole scenario as it follows it. */
export interface Strategy {
  readonly name: string;
  readonly workflow: WorkflowName;
  readonly settings: Scenario;
}

/** A strategy laid over the shared part. */
export interface LaidStrategy extends Strategy {
  /** Where its settings are its own, whatever the shared part says, in the order in which they were laid over it. */
  readonly own: readonly OwnValue[];
}

/** A strategy's whole scenario as raw data, with what it overrides and what is wrong with that. */
export interface Overlaid {
  /** As a person would write it; where it is no text, its number is its name. */
  readonly name: string;
  readonly raw: RawMap;
  /** As `raw`, before the defaults of what the strategy wrote or took away were filled in. */
  readonly unfilled: RawMap;
  readonly own: readonly OwnValue[];
  readonly overrides: readonly Override[];
  readonly problems: readonly Problem[];
}

/** What all strategies must share, or there is nothing to compare. */
const SHARED = ['title', 'about', 'seed', 'cautions', 'smallestDifference', 'strategies', 'sources', 'ranges'];
/** Parts that a strategy overrides under their own names, entry by entry. */
export const MERGED: readonly string[] = ['rules', 'pace'];

/** Each strategy laid over the shared part, at most so many; `filled` is that part with its defaults, which is not changed. */
export function overlays(filled: RawMap, most: number): readonly Overlaid[] {
  const written = filled['strategies'];
  return Array.isArray(written) && written.length <= most
    ? written.map((strategy: unknown, index) => overlay(filled, strategy, index))
    : [];
}

/** `rules` and `pace` entry by entry, then `set` path by path. */
function overlay(filled: RawMap, strategy: unknown, index: number): Overlaid {
  let raw = filled;
  const own: Override[] = [];
  const problems: Problem[] = [];
  for (const part of MERGED) {
    const over = entryOf(strategy, part);
    for (const [target, value] of isMap(over) && isMap(raw[part]) ? entriesBelow(over, [part]) : []) {
      raw = replacedAt(raw, target, value ?? undefined);
      own.push({ target, writtenAt: ['strategies', index, ...target], takesItemAway: false });
    }
  }
  const set = entryOf(strategy, 'set');
  for (const [text, value] of isMap(set) ? Object.entries(set) : []) {
    const writtenAt = ['strategies', index, 'set', text];
    const resolved = resolveOwn(raw, text);
    const edited = resolved.ok ? writtenInto(scenarioSchema, raw, resolved.path, value) : resolved;
    if (resolved.ok) own.push({ target: resolved.path, writtenAt, takesItemAway: isItemTaken(resolved.path, value) });
    if (edited.ok) raw = edited.data;
    else problems.push({ path: writtenAt, at: 'key', message: edited.message });
  }
  const name = entryOf(strategy, 'name');
  const whole = own.length === 0 ? raw : fillDefaults(sharedSchema, raw);
  return {
    ...{ name: typeof name === 'string' ? name : String(index), raw: isMap(whole) ? whole : raw, unfilled: raw },
    ...{ own: own.map(({ target, takesItemAway }) => ({ target, takesItemAway })), overrides: inPlace(own), problems },
  };
}

/** Whether a value put at a path takes an item of a list away. */
export function isItemTaken(path: Path, value: unknown): boolean {
  return value === null && typeof path.at(-1) === 'number';
}

/** The place to which a path of a strategy leads in its scenario. */
export function resolveOwn(document: RawMap, text: string): ReturnType<typeof resolvePath> {
  const [first] = text.split('.', 1);
  return SHARED.includes(first)
    ? { ok: false, message: `${show(first)} is shared by all strategies; a strategy cannot set it` }
    : resolvePath(sharedSchema, document, text);
}

/** Own values where they stand in the end: items taken away are gone, and later ones have moved up. */
export function inPlace<Own extends OwnValue>(own: readonly Own[]): readonly Own[] {
  return own.reduce<readonly Own[]>((kept, value) => {
    if (!value.takesItemAway) return [...kept, value];
    const moved = kept.flatMap((each) => {
      const target = movedUp(each.target, value.target);
      return target === null ? [] : [{ ...each, target }];
    });
    return [...moved, value];
  }, []);
}

/** Where a value of the shared part stands in a strategy's scenario; null where the strategy has its own there. */
export function followedAt(own: readonly OwnValue[], path: Path): Path | null {
  let at: Path | null = path;
  for (const { target, takesItemAway } of own) {
    if (at === null) return null;
    if (takesItemAway) at = movedUp(at, target);
    else if (startsWith(at, target)) return null;
  }
  return at;
}

/** A path once the item at `gone` is taken out of its list; null where it is that item's. */
function movedUp(path: Path, gone: Path): Path | null {
  const depth = gone.length - 1;
  const [at, number] = [path.at(depth), gone.at(-1)];
  if (typeof at !== 'number' || typeof number !== 'number' || !startsWith(path, gone.slice(0, depth))) return path;
  if (at === number) return null;
  return at < number ? path : [...path.slice(0, depth), at - 1, ...path.slice(depth + 1)];
}
