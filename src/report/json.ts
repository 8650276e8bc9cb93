import type { Summary } from '../analysis/results.js';

/** Signs of a part of a file that is put together before it is handed on. */
const PART = 65_536;

/** `summary.json`: keys in the order in which the study wrote them. It may be too long to be held as one text. */
export function summaryJson(summary: Summary): Iterable<string> {
  return { [Symbol.iterator]: () => inParts(pieces(summary, '')) };
}

/**
 * Plain data as JSON with two spaces and a newline at the end. What holds no other list or object stands on one line,
 * so that a table of a thousand rows has a thousand lines.
 */
export function prettyJson(data: object): string {
  return [...inParts(pieces(data, ''))].join('');
}

/**
 * Plain data as JSON in one line, of which no sign acts where it is shown: controls, signs that turn the order of a line and
 * the like are written as \uXXXX, which reads back as the same.
 */
export function lineJson(data: unknown): string {
  const json = JSON.stringify(data);
  return typeof data === 'number' ? json : json.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu, escaped);
}

function escaped(sign: string): string {
  return Array.from({ length: sign.length }, (_, at) => {
    const unit = sign.charCodeAt(at).toString(16).padStart(4, '0');
    return `\\u${unit}`;
  }).join('');
}

/** The same text in few long parts, with a newline behind it. */
function* inParts(texts: Iterable<string>): Generator<string> {
  let held: string[] = [];
  let length = 0;
  for (const text of texts) {
    held.push(text);
    length += text.length;
    if (length < PART) continue;
    yield held.join('');
    [held, length] = [[], 0];
  }
  yield `${held.join('')}\n`;
}

/** What stands in a list or object, each with what is written before it. */
interface Entry {
  readonly name: string;
  readonly each: unknown;
}

function* pieces(value: unknown, indent: string): Generator<string> {
  const [open, close] = bracketsOf(value);
  if (!isNested(value)) {
    yield lineJson(value);
  } else if (!Object.values(value).some(isNested)) {
    const entries = Array.from(entriesOf(value), ({ name, each }) => name + lineJson(each));
    const space = entries.length === 0 || Array.isArray(value) ? '' : ' ';
    yield `${open}${space}${entries.join(', ')}${space}${close}`;
  } else {
    const deeper = `${indent}  `;
    let before = `${open}\n${deeper}`;
    for (const { name, each } of entriesOf(value)) {
      yield before + name;
      yield* pieces(each, deeper);
      before = `,\n${deeper}`;
    }
    yield `\n${indent}${close}`;
  }
}

/** One at a time: a list may be as long as a plan has steps. */
function* entriesOf(value: object): Generator<Entry> {
  if (Array.isArray(value)) {
    // In a list, what JSON cannot say is null.
    const list: readonly unknown[] = value;
    for (const each of list) yield { name: '', each: each === undefined ? null : each };
    return;
  }
  for (const [name, each] of Object.entries<unknown>({ ...value }))
    if (each !== undefined) yield { name: `${lineJson(name)}: `, each };
}

function isNested(value: unknown): value is object {
  return typeof value === 'object' && value !== null;
}

function bracketsOf(value: unknown): readonly [string, string] {
  return Array.isArray(value) ? ['[', ']'] : ['{', '}'];
}
