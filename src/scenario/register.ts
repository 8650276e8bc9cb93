import { z } from 'zod';
import { type Path, pathKey } from './places.js';
import { type FoundLeaf, leavesOf } from './leaf-walk.js';
import { resolvePath, writtenPath } from './paths.js';
import { numberIn, rangeOf, schemaRange, type Written, type WrittenRange } from './ranges.js';
import { scenarioSchema } from './schema/scenario.js';
import { entryOf, isMap, type RawMap } from './schema-walk.js';

/**
 * What stands behind a value: it is chosen rather than known (plan, policy, hours), its default is published, the
 * scenario names a source, or it is only assumed.
 */
export type Standing = 'choice' | 'published' | 'given source' | 'assumed';

/** One value of the shared part. */
export interface RegisterValue {
  /** As `set`, `sources` and `ranges` take it. */
  readonly path: string;
  /** As a person writes it, with unit. */
  readonly value: string;
  readonly description: string;
  readonly standing: Standing;
  /** Null for what is chosen, and for what is zero and scales with itself. */
  readonly range: WrittenRange | null;
  /** Null where it is only assumed or chosen. */
  readonly source: string | null;
  /** What is said of an assumed value, such as "usual practice, no source"; null where nothing is. */
  readonly note: string | null;
  /** The value was left to its default. */
  readonly isDefault: boolean;
}

const NO_SOURCE = /^(?:assumed|usual practice|textbook, from memory|from memory|guess|estimate)/iu;

/** Every numeric value of the shared part, and the hours and limits chosen, in the schema's order. `raw` is as written, `filled` with defaults. */
export function registerOf(raw: RawMap, filled: RawMap): readonly RegisterValue[] {
  const said = { sources: notesOf(filled, 'sources'), ranges: notesOf(filled, 'ranges') };
  const shared = scenarioSchema.omit({ strategies: true, sources: true, ranges: true });
  return leavesOf(shared, filled)
    .filter(({ leaf }) => leaf.form !== 'flag')
    .map((found) => entry(found, raw, filled, said));
}

interface Said {
  /** By the key of a path. */
  readonly sources: ReadonlyMap<string, unknown>;
  readonly ranges: ReadonlyMap<string, unknown>;
}

function notesOf(filled: RawMap, part: 'sources' | 'ranges'): ReadonlyMap<string, unknown> {
  const notes = new Map<string, unknown>();
  const written = filled[part];
  for (const [text, note] of isMap(written) ? Object.entries(written) : []) {
    const resolved = resolvePath(scenarioSchema, filled, text);
    if (resolved.ok) notes.set(pathKey(resolved.path), note);
  }
  return notes;
}

function entry(found: FoundLeaf, raw: RawMap, filled: RawMap, said: Said): RegisterValue {
  const { leaf, group, path, written } = found;
  const isDefault = !isWritten(raw, path);
  const value = toWritten(written);
  const range =
    value === null
      ? null
      : (givenRange(said.ranges.get(pathKey(path))) ?? withinSiblings(found, filled, schemaRange(leaf, value)));
  const given = nearestNote(said.sources, path);
  const preset = isDefault ? (leaf.source ?? group?.source ?? null) : null;
  const text = given ?? preset;
  const sourced = text !== null && !NO_SOURCE.test(text);
  const standing: Standing = sourced
    ? given === null
      ? 'published'
      : 'given source'
    : range === null
      ? 'choice'
      : 'assumed';
  return {
    path: writtenPath(filled, path),
    value: Array.isArray(written) ? written.join('; ') : String(written),
    description:
      group?.description === undefined ? leaf.description : `${group.description}: ${leaf.description.toLowerCase()}`,
    standing,
    range,
    source: sourced ? text : null,
    note: sourced ? null : text,
    isDefault,
  };
}

function toWritten(value: unknown): Written | null {
  return typeof value === 'number' || typeof value === 'string' ? value : null;
}

function isWritten(raw: RawMap, path: Path): boolean {
  let data: unknown = raw;
  for (const key of path) data = entryOf(data, key);
  return data !== undefined;
}

/** A note on a path covers everything below it; the nearest one counts. */
function nearestNote(notes: ReadonlyMap<string, unknown>, path: Path): string | null {
  for (let length = path.length; length > 0; length -= 1) {
    const note = notes.get(pathKey(path.slice(0, length)));
    if (typeof note === 'string') return note;
  }
  return null;
}

function givenRange(range: unknown): WrittenRange | null {
  const pair = z.tuple([z.union([z.number(), z.string()]), z.union([z.number(), z.string()])]).safeParse(range);
  return pair.success ? rangeOf(pair.data[0], pair.data[1]) : null;
}

/** Values of one map that must ascend: neither end of a range may pass a neighbour. */
const ASCENDING = [
  ['usual', 'p90'],
  ['min', 'mode', 'max'],
];
/** Chances of one map that add up to 1 at most. */
const SHARING = ['newApex', 'breaks'];

function withinSiblings(found: FoundLeaf, filled: RawMap, range: WrittenRange | null): WrittenRange | null {
  const key = String(found.path.at(-1));
  const sibling = (name: string | undefined): Written | null => {
    let data: unknown = filled;
    for (const step of found.path.slice(0, -1)) data = entryOf(data, step);
    return name === undefined ? null : toWritten(entryOf(data, name));
  };
  if (range === null) return null;
  let { low, high } = range;
  const order = found.path.includes('steps') ? ASCENDING.find((names) => names.includes(key)) : undefined;
  if (order !== undefined) {
    low = further(found, low, sibling(order[order.indexOf(key) - 1]), 1);
    high = further(found, high, sibling(order[order.indexOf(key) + 1]), -1);
  }
  const other = SHARING.includes(key) ? sibling(SHARING.find((name) => name !== key)) : null;
  if (typeof other === 'number' && typeof high === 'number') high = Math.min(high, Number((1 - other).toPrecision(12)));
  return low === high ? null : rangeOf(low, high);
}

/** Of an end and a neighbour the one that lies further up (`sense` 1) or down (-1). */
function further(found: FoundLeaf, end: Written, neighbour: Written | null, sense: 1 | -1): Written {
  const [a, b] = [numberIn(found.leaf, end), numberIn(found.leaf, neighbour)];
  return a !== null && b !== null && neighbour !== null && sense * (b - a) > 0 ? neighbour : end;
}
