import { z } from 'zod';
import { outlineOf, type Schema } from './schema-walk.js';
import { show } from './show.js';

/**
 * The map that a single value was to stand in, as a person would write it: `{ nominal: 8 nm }`; null where it fits into
 * none. What is said tip kind by tip kind goes under the first of `kinds`.
 */
export function mapAround(schema: Schema, written: unknown, kinds: readonly string[]): string | null {
  if (typeof written !== 'string' && typeof written !== 'number') return null;
  const outline = outlineOf(schema);
  const keys =
    outline.form === 'map'
      ? [...outline.entries.keys()]
      : outline.form === 'record' && outlineOf(outline.value).leaf !== null
        ? kinds.slice(0, 1)
        : [];
  const key = keys.find((each) => z.safeParse(schema, { [each]: written }).success);
  return key === undefined ? null : show(`{ ${key}: ${written} }`);
}
