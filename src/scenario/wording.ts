import type { z } from 'zod';
import { suggestion } from './nearest.js';
import { notText, show } from './show.js';

const KINDS: Readonly<Record<string, string>> = {
  string: 'a text',
  number: 'a number',
  int: 'a whole number',
  boolean: '`true` or `false`',
  object: 'a map (indented `key: value` lines)',
  record: 'a map (indented `key: value` lines)',
  array: 'a list',
  tuple: 'a list of two values',
};

/** What is wrong in plain words: what was read, and what is wanted. Schemas with words of their own keep them. */
export function wording(issue: z.core.$ZodRawIssue): string | undefined {
  const read = `read ${show(issue.input)}`;
  switch (issue.code) {
    case 'invalid_type':
      return notText(issue.input, '', `${KINDS[issue.expected] ?? issue.expected} is wanted`);
    case 'too_small':
      return `${read}; ${issue.inclusive === true ? 'at least' : 'more than'} ${amount(issue.origin, issue.minimum)} is wanted`;
    case 'too_big':
      return `${read}; ${issue.inclusive === true ? 'at most' : 'less than'} ${amount(issue.origin, issue.maximum)} is wanted`;
    case 'invalid_value':
      return issue.input === undefined
        ? `is missing; expected one of ${list(issue.values)}`
        : `${read}${suggestion(issue.input, issue.values.map(String))}`;
    case 'not_multiple_of':
      return `${read}; a whole number is wanted`;
    case 'invalid_format':
      return `${read}; a text of another form is wanted`;
    default:
      return undefined;
  }
}

function list(values: readonly unknown[]): string {
  return values.map((value) => `\`${String(value)}\``).join(', ');
}

function amount(origin: string, limit: number | bigint): string {
  if (origin === 'string') return `${limit} characters`;
  if (origin === 'array') return limit === 1 || limit === 1n ? 'one entry' : `${limit} entries`;
  return String(limit);
}
