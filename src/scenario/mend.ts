import { copyOf } from './edit.js';
import { nearest } from './nearest.js';
import { type Path, pathKey } from './places.js';
import { parseWith, type Problem } from './problems.js';
import { type Scenario, scenarioSchema } from './schema/scenario.js';
import { childOf, entryOf, isMap, keysOf, outlineOf, type RawMap, type Schema } from './schema-walk.js';
import { standIn } from './stand-in.js';

/** A scenario that the schema takes, with the places at which something else stands than was written. */
export interface Mended {
  readonly raw: RawMap;
  readonly settings: Scenario;
  readonly holes: readonly Path[];
}

/** Values that go with others are given up together, a level at a time; nothing stands deeper than this. */
const MOST_ROUNDS = 20;

/**
 * Puts something that fits for whatever the schema refuses, so that the rest can be looked at. `written` is the scenario
 * without defaults: what it leaves out next to a key that nobody knows may be what that key was to say.
 */
export function mend(filled: RawMap, written: RawMap): Mended | null {
  const raw = copyOf(filled);
  const holes = new Map<string, Path>();
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const parsed = parseWith(scenarioSchema, raw);
    if (parsed.ok) return { raw, settings: parsed.value, holes: [...holes.values()] };
    const before = new Set(holes.keys());
    for (const problem of parsed.problems) {
      for (const hole of holesOf(problem, raw, written, before)) {
        if (hole.length === 0) return null;
        holes.set(pathKey(hole), hole);
      }
    }
  }
  return null;
}

/** Mends what is wrong at one place. Gives the values of which nothing is known now. */
function holesOf(problem: Problem, raw: RawMap, written: RawMap, before: ReadonlySet<string>): readonly Path[] {
  const whole = readableAs(problem.path);
  const holder = problem.path.slice(0, -1);
  if (problem.at === 'key' && whole.length === problem.path.length) {
    const key = String(problem.path.at(-1));
    const around = schemaAt(raw, holder);
    put(raw, problem.path, undefined);
    if (around === null || outlineOf(around.schema).form === 'record') return [holder];
    const keys = keysOf(around.schema, around.data);
    const meant = nearest(key, keys);
    const leftOut = keys.filter((each) => entryOf(dataAt(written, holder), each) === undefined);
    return (meant === null ? leftOut : [meant]).map((each) => [...holder, each]);
  }
  let hole = whole;
  while (hole.length > 0 && before.has(pathKey(hole))) hole = hole.slice(0, -1);
  const place = schemaAt(raw, hole);
  if (place !== null && hole.length > 0) put(raw, hole, standIn(place.schema));
  return [hole];
}

/** As much of a path as leads to the same value once it is read: a value with several forms is read as one. */
function readableAs(path: Path): Path {
  let schema: Schema | null = scenarioSchema;
  for (const [depth, key] of path.entries()) {
    if (schema === null || outlineOf(schema).form === 'options') return path.slice(0, depth);
    schema = childOf(schema, undefined, key);
  }
  return path;
}

function schemaAt(raw: RawMap, path: Path): { readonly schema: Schema; readonly data: unknown } | null {
  let schema: Schema = scenarioSchema;
  for (const [depth, key] of path.entries()) {
    const child = childOf(schema, dataAt(raw, path.slice(0, depth)), key);
    if (child === null) return null;
    schema = child;
  }
  return { schema, data: dataAt(raw, path) };
}

function dataAt(raw: RawMap, path: Path): unknown {
  return path.reduce<unknown>((data, key) => entryOf(data, key), raw);
}

/** Undefined takes the entry of a map away. */
function put(raw: RawMap, path: Path, value: unknown): void {
  const holder = dataAt(raw, path.slice(0, -1));
  const key = path.at(-1);
  if (Array.isArray(holder) && typeof key === 'number') holder[key] = value;
  else if (isMap(holder) && value === undefined) Reflect.deleteProperty(holder, String(key));
  else if (isMap(holder)) holder[String(key)] = value;
}
