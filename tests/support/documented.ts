import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { root } from './command.js';

/** Names of all fields in plain data, once each; those of a split by activity are activities. */
function fieldsOf(value: unknown): string[] {
  if (Array.isArray(value)) return [...new Set(value.flatMap(fieldsOf))];
  if (typeof value !== 'object' || value === null) return [];
  const entries = Object.entries(value).filter(([key]) => key !== 'split');
  return [...new Set(entries.flatMap(([key, child]) => [key, ...fieldsOf(child)]))];
}

/** Fields of a summary that `reports/README.md` does not name. */
export function undocumentedFields(summary: string): readonly string[] {
  const documentation = readFileSync(join(root, 'reports/README.md'), 'utf8');
  return fieldsOf(JSON.parse(summary)).filter(
    (field) => ![field, `${field}[]`].some((name) => documentation.includes(`\`${name}\``)),
  );
}
