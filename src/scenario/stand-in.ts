import { z } from 'zod';
import { MONEY_EXAMPLE } from './money.js';
import { DIMENSIONS } from './quantity.js';
import { outlineOf, type Schema } from './schema-walk.js';

/** One of these is a value of every single schema that has no words of its own. */
const SINGLE: readonly unknown[] = [
  ...[1, 0.5, 2, true, 'x', 'always', 'Mo 09:00', '1 session', '20 images', '1 nm', MONEY_EXAMPLE],
  ...Object.values(DIMENSIONS).map(({ example }) => example),
];

/** Raw data that the schema takes; undefined where nothing need stand, or where nothing is known to fit. */
export function standIn(schema: Schema): unknown {
  const outline = outlineOf(schema);
  if (outline.mayBeLeftOut) return outline.preset;
  switch (outline.form) {
    case 'map':
      return Object.fromEntries(
        Array.from(outline.entries, ([key, child]) => [key, standIn(child)]).filter(([, value]) => value !== undefined),
      );
    case 'record':
      return {};
    case 'list':
      return [standIn(outline.item)];
    case 'pair':
      return outline.items.map(standIn);
    case 'options':
      return outline.options.map(standIn).find((value) => z.safeParse(schema, value).success);
    case 'single':
      return outline.literal ?? [...wordsOf(schema), ...SINGLE].find((value) => z.safeParse(schema, value).success);
  }
}

/** The words of which a single value must be one. */
function wordsOf(schema: Schema): readonly unknown[] {
  const issue = z.safeParse(schema, undefined).error?.issues[0];
  return issue?.code === 'invalid_value' ? issue.values : [];
}
