import * as z from 'zod';
import { describedAt, withEnding } from './describe.js';
import { type Path, startsWith } from './places.js';
import { writtenPath } from './paths.js';
import { numberIn, rangeOf, schemaRange, type Written, type WrittenRange } from './ranges.js';
import { STEPS_BETWEEN_SAMPLES } from './samples.js';
import { sharedSchema } from './schema/scenario.js';
import { dataAt, entryOf, type FoundLeaf, isMap, leavesOf, type RawMap } from './schema-walk.js';
import { asWritten, withinSiblings } from './siblings.js';
import type { Overlaid } from './strategies.js';
import { knownWithin, type UnknownInput } from './uncertainty.js';
import { type Laid, placeKey, resolveValue, type ValuePlace, writtenIn } from './value-path.js';

/**
 * What stands behind a value: it is chosen rather than known (plan, policy, hours), its default is published, the
 * scenario names a source, or it is only assumed.
 */
export type Standing = 'choice' | 'published' | 'given source' | 'assumed';

/** One value of the shared part, or one that a strategy puts in its place. */
export interface RegisterValue {
  /** As `sources`, `ranges` and `withValue` take it. */
  readonly path: string;
  /** As a person writes it, with unit. */
  readonly value: string;
  readonly description: string;
  readonly standing: Standing;
  /** Null for what is chosen, and for what is zero and scales with itself; of what carries uncertainty, how far it is known. */
  readonly range: WrittenRange | null;
  /** Null where it is only assumed or chosen. */
  readonly source: string | null;
  /** What is said of an assumed value, such as "usual practice, no source"; null where nothing is. */
  readonly note: string | null;
  /** The value was left to its default. */
  readonly isDefault: boolean;
}

/** A value as the scenario has it: a number, or a text with its unit. */
export function writtenOf({ value }: Pick<RegisterValue, 'value'>): Written {
  const number = Number(value);
  return Number.isNaN(number) ? value : number;
}

const NO_SOURCE = /^(?:assumed|usual practice|textbook, from memory|from memory|guess|estimate)/iu;

/** A single value, as the shared part or one strategy has it. */
interface Found extends ValuePlace {
  readonly found: FoundLeaf;
  readonly isDefault: boolean;
}

/**
 * Every numeric value of the shared part, and the hours and limits chosen, in the schema's order; then, strategy by
 * strategy, those that it overrides. `raw` is as written, `filled` with defaults.
 */
export function registerOf(
  raw: RawMap,
  filled: RawMap,
  strategies: readonly Overlaid[],
  inputs: readonly UnknownInput[],
): readonly RegisterValue[] {
  const written = writtenIn(filled, strategies);
  const said = { sources: notesOf(written, 'sources'), ranges: notesOf(written, 'ranges') };
  const shared = valuesIn(filled).map((found) => {
    const isDefault = !isWritten(raw, found.path);
    return { found, path: found.path, document: filled, strategy: null, isDefault };
  });
  const known = new Map(
    shared.map((value) => [writtenPath(filled, value.path), { value, entry: entryFor(value, said, null) }]),
  );
  const own = strategies.flatMap(ownValues).map((value) => {
    const base = known.get(writtenPath(value.document, value.path));
    const isSame = base !== undefined && sameNumber(value.found, base.value.found);
    const entry = entryFor(value, said, isSame ? base.entry : null);
    return {
      ...entry,
      path: `${writtenPath(filled, ['strategies', value.strategy])}.${value.part}.${entry.path.slice(value.part === 'set' ? 0 : value.part.length + 1)}`,
      description: withEnding(entry.description, ` (${strategies[value.strategy].name})`),
    };
  });
  const within = new Map(
    inputs.flatMap(({ parameters }) => parameters.map((parameter) => [parameter.path, knownWithin(parameter)])),
  );
  return [
    ...Array.from(known.values(), ({ entry }) => ({ ...entry, range: within.get(entry.path) ?? entry.range })),
    ...own,
  ];
}

function valuesIn(document: RawMap): readonly FoundLeaf[] {
  const moot = hasOneSample(document) ? BETWEEN_SAMPLES : [];
  return leavesOf(sharedSchema, document).filter(
    ({ leaf, path }) => leaf.form !== 'flag' && !moot.some((step) => startsWith(path, step)),
  );
}

/** Steps that only a plan of several samples comes to. */
const BETWEEN_SAMPLES = Object.entries(STEPS_BETWEEN_SAMPLES).flatMap(([workflow, steps]) =>
  steps.map((step) => ['workflows', workflow, 'steps', step]),
);

function hasOneSample(document: RawMap): boolean {
  const samples = entryOf(document['plan'], 'samples');
  return Array.isArray(samples) ? samples.length === 1 : samples === 1 || samples === undefined;
}

interface OwnValue extends Found {
  readonly strategy: number;
  /** Under which of its keys the strategy says so. */
  readonly part: string;
}

/** What a strategy puts in the place of shared values; of two overrides of one value the later counts. */
function ownValues({ raw, unfilled, overrides }: Overlaid, strategy: number): readonly OwnValue[] {
  return valuesIn(raw).flatMap((found) => {
    const override = overrides.findLast(
      ({ target, takesItemAway }) => !takesItemAway && startsWith(found.path, target),
    );
    if (override === undefined) return [];
    const part = String(override.writtenAt.at(2));
    return [{ found, path: found.path, document: raw, strategy, part, isDefault: !isWritten(unfilled, found.path) }];
  });
}

function sameNumber(one: FoundLeaf, other: FoundLeaf): boolean {
  const [a, b] = [numberIn(one.leaf, one.written), numberIn(other.leaf, other.written)];
  return a !== null && a === b;
}

interface Said {
  /** By the key of a place. */
  readonly sources: ReadonlyMap<string, unknown>;
  readonly ranges: ReadonlyMap<string, unknown>;
}

function notesOf(scenario: Laid, part: 'sources' | 'ranges'): ReadonlyMap<string, unknown> {
  const written = scenario.shared[part];
  const notes = isMap(written) ? Object.entries(written) : [];
  return new Map(
    notes.flatMap(([text, note]) => {
      const resolved = resolveValue(scenario, text);
      return resolved.ok ? [[placeKey(resolved.place.strategy, resolved.place.path), note] as const] : [];
    }),
  );
}

/** `shared` is the entry of the shared value that a strategy repeats, whose source then holds here too. */
function entryFor(value: Found, said: Said, shared: RegisterValue | null): RegisterValue {
  const { found, path, document, strategy, isDefault } = value;
  const { leaf, group, written } = found;
  const single = asWritten(written);
  const range =
    single === null
      ? null
      : (givenRange(said.ranges.get(placeKey(strategy, path))) ??
        withinSiblings(found, document, schemaRange(leaf, single)));
  const given = nearestNote(said.sources, strategy, path);
  const preset = isDefault ? (leaf.source ?? group?.source ?? null) : null;
  const text = given ?? preset ?? shared?.source ?? shared?.note ?? null;
  const sourced = text !== null && !NO_SOURCE.test(text);
  const open = range === null ? 'choice' : 'assumed';
  const known =
    given === null && preset === null && shared !== null
      ? shared.standing
      : given === null
        ? 'published'
        : 'given source';
  return {
    path: writtenPath(document, path),
    value: Array.isArray(written) ? written.join('; ') : String(written),
    description: describedAt(found, document),
    standing: sourced ? known : open,
    range,
    source: sourced ? text : null,
    note: sourced ? null : text,
    isDefault,
  };
}

function isWritten(raw: RawMap, path: Path): boolean {
  return dataAt(raw, path) !== undefined;
}

/** A note on a path covers everything below it; the nearest one counts. */
function nearestNote(notes: ReadonlyMap<string, unknown>, strategy: number | null, path: Path): string | null {
  const least = strategy === null ? 1 : 0;
  for (let length = path.length; length >= least; length -= 1) {
    const note = notes.get(placeKey(strategy, path.slice(0, length)));
    if (typeof note === 'string') return note;
  }
  return null;
}

const rangeEnd = z.union([z.number(), z.string()]);
const rangeEnds = z.tuple([rangeEnd, rangeEnd]);

function givenRange(range: unknown): WrittenRange | null {
  const pair = rangeEnds.safeParse(range);
  return pair.success ? rangeOf(pair.data[0], pair.data[1]) : null;
}
