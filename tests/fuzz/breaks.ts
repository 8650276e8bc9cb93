import fc from 'fast-check';
import { stringify } from 'yaml';
import { type Data, isData } from './written.js';

/** A scenario's text that says one thing wrong, and what. */
export interface Broken {
  readonly text: string;
  readonly what: string;
}

type Path = readonly (string | number)[];

/** Paths of all values of plain data that have a name of the schema: not those below free names and free texts. */
function pathsIn(data: unknown, path: Path = []): readonly Path[] {
  if (FREE.has(String(path.at(-1)))) return [];
  const entries: readonly (readonly [string | number, unknown])[] = Array.isArray(data)
    ? data.map((item: unknown, index) => [index, item] as const)
    : isData(data)
      ? Object.entries(data)
      : [];
  return [...(path.length === 0 ? [] : [path]), ...entries.flatMap(([key, value]) => pathsIn(value, [...path, key]))];
}

/** Below these anything may be called anything, or its mistakes are others than those made here. */
const FREE = new Set(['set', 'sources', 'ranges', 'title', 'about', 'seed', 'name', 'sites', 'dead', 'stock']);

/** Plain data with one value put for another, or one key for another. */
function changed(data: unknown, path: Path, change: (holder: Record<string, unknown>, key: string) => void): unknown {
  const [key, ...rest] = path;
  if (path.length === 0) return data;
  if (Array.isArray(data))
    return data.map((item: unknown, index) => (index === key ? changed(item, rest, change) : item));
  if (!isData(data)) return data;
  const copy = { ...data };
  if (rest.length === 0) change(copy, String(key));
  else copy[String(key)] = changed(data[String(key)], rest, change);
  return copy;
}

/** Ways to make something wrong that was right, whatever stands there; each is refused for any value of the schema. */
const WAYS: Readonly<Record<string, (holder: Record<string, unknown>, key: string) => void>> = {
  'key misspelt': (holder, key) => {
    holder[`${key}x`] = holder[key];
    Reflect.deleteProperty(holder, key);
  },
  'unit of another kind': (holder, key) => {
    holder[key] = '3 kelvin';
  },
  'list of lists': (holder, key) => {
    holder[key] = [[[]]];
  },
  'number beyond all reason': (holder, key) => {
    holder[key] = 1e300;
  },
  'key that no scenario may have': (holder) => {
    Object.defineProperty(holder, '__proto__', { value: { polluted: true }, enumerable: true });
  },
};

/** Every scenario with one thing wrong in a place of its own. */
export function breaksIn(scenarios: fc.Arbitrary<Data>): fc.Arbitrary<Broken> {
  const broken = fc
    .tuple(scenarios, fc.nat(), fc.constantFrom(...Object.entries(WAYS)))
    .map(([scenario, number, [what, way]]): Broken => {
      const places = pathsIn(scenario).filter((path) => typeof path.at(-1) === 'string' && path.at(-2) !== 'tips');
      const place = places[number % places.length] ?? [];
      return { text: stringify(changed(scenario, place, way)), what: `${what} at ${place.join('.')}` };
    });
  return broken;
}
