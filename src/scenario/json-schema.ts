import * as z from 'zod';
import { DIMENSIONS } from './quantity.js';
import { type Leaf, type LeafNature, leaves } from './schema/leaf.js';
import { scenarioSchema } from './schema/scenario.js';

const NUMBER = '^\\s*[+-]?(\\d+\\.?\\d*|\\.\\d+)([eE][+-]?\\d+)?';
/** A number and something that may be a unit; what it measures is checked on loading. */
const WITH_UNIT = `${NUMBER}(\\s*[^\\s\\d.,+-].*|\\s+1/.*)$`;
const WITH_CURRENCY = `${NUMBER}\\s*[A-Z]{3}\\s*$`;

/**
 * JSON Schema (draft 7, which editors' YAML servers read) of what a person writes, with descriptions, defaults and
 * examples; made from the one schema that also gives the types and the checks.
 */
export function scenarioJsonSchema(): object {
  return z.toJSONSchema(scenarioSchema, {
    target: 'draft-7',
    io: 'input',
    override: ({ zodSchema, jsonSchema }) => {
      const leaf = zodSchema instanceof z.ZodType ? leaves.get(zodSchema) : undefined;
      if (leaf !== undefined) Object.assign(jsonSchema, hints(leaf));
    },
  });
}

function hints(leaf: Leaf & LeafNature): object {
  if (leaf.form === 'quantity') return { pattern: WITH_UNIT, examples: [DIMENSIONS[leaf.dimension].example] };
  return leaf.form === 'money' ? { pattern: WITH_CURRENCY, examples: ['30 EUR'] } : {};
}
