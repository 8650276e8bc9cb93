import { Lexer, LineCounter, parseDocument, Parser } from 'yaml';
import { PlainData } from './plain-data.js';
import type { Place, Places, TextFault } from './places.js';
import type { RawMap } from './schema-walk.js';
import { show } from './show.js';

export type ReadDocument =
  | { readonly ok: true; readonly raw: RawMap; readonly places: Places }
  | { readonly ok: false; readonly faults: readonly TextFault[] };

/** Characters of a scenario file; more is another file. */
export const GREATEST_LENGTH = 1_000_000;
const DEEPEST = 60;

/** Reads YAML 1.2 (so JSON too) into plain data, and remembers where everything stands. */
export function readDocument(text: string): ReadDocument {
  const refuse = (message: string, place: Place = { line: 1, column: 1 }): ReadDocument => ({
    ok: false,
    faults: [{ ...place, message }],
  });
  if (text.length > GREATEST_LENGTH) {
    return refuse(
      `the file has ${(text.length / 1e6).toFixed(1)} million characters; a scenario has at most ${GREATEST_LENGTH / 1e6} million`,
    );
  }
  const lines = new LineCounter();
  const at = (offset: number): Place => {
    const { line, col } = lines.linePos(offset);
    return { line: Math.max(1, line), column: Math.max(1, col) };
  };
  const source = text.replace(/^\uFEFF/u, '');
  const odd = /[^\t\n\r\u0020-\u007E\u0085\u00A0-\uD7FF\uE000-\uFFFC\u{10000}-\u{10FFFF}]/u.exec(source);
  if (odd !== null)
    return refuse(
      `read ${show(odd[0])}, which no text file has; a scenario is YAML text in UTF-8`,
      placeIn(source, odd.index),
    );
  const deep = tooDeep(source);
  if (deep !== null)
    return refuse(
      `maps and lists stand more than ${DEEPEST} deep in each other here; a scenario needs no more than ten`,
      placeIn(source, deep),
    );
  const document = parseDocument(source, {
    lineCounter: lines,
    version: '1.2',
    schema: 'core',
    uniqueKeys: true,
    prettyErrors: false,
    stringKeys: true,
  });
  const faults: TextFault[] = [...document.errors, ...document.warnings]
    .map((error) => ({ ...at(error.pos[0]), message: yamlMessage(error.code, error.message) }))
    .filter(({ line, message }, index, all) => !isSaidInLine(all.slice(0, index), line, message));
  if (faults.length > 0) return { ok: false, faults };
  const plain = new PlainData(document, at);
  const raw = plain.of(document.contents, []);
  if (plain.faults.length > 0) return { ok: false, faults: plain.faults };
  if (raw === null || raw === undefined)
    return refuse('the file is empty; a scenario with title, plan, tips and strategies is wanted');
  if (typeof raw !== 'object' || Array.isArray(raw))
    return refuse(`read ${show(raw)}; a scenario with title, plan, tips and strategies is wanted`);
  return { ok: true, raw: { ...raw }, places: plain.places };
}

/** What the YAML library says, where it speaks to programmers put for people. */
const YAML_WORDS: Readonly<Record<string, string>> = {
  BLOCK_AS_IMPLICIT_KEY: 'a map begins inside this line; put a text that holds a colon in quotes, such as `"x: y"`',
  DUPLICATE_KEY: 'this key stands twice in one map; each may stand once',
  MULTIPLE_DOCS: 'a second document begins here (`---`); a scenario is one document',
  NON_STRING_KEY: 'this key is no plain text; a key such as `lines` is wanted',
  TAB_AS_INDENT: 'this line is indented with a tab; YAML wants spaces',
  TAG_RESOLVE_FAILED: 'this tag (`!…`) is not known; a scenario has no tags',
};

/** Each further colon of one line gives the same again. */
function isSaidInLine(earlier: readonly TextFault[], line: number, message: string): boolean {
  return earlier.some((fault) => fault.line === line && fault.message === message);
}

function yamlMessage(code: string, message: string): string {
  return YAML_WORDS[code] ?? `this is no YAML: ${message}`;
}

function placeIn(text: string, offset: number): Place {
  const before = text.slice(0, offset).split(/\r\n|\r|\n/u);
  return { line: before.length, column: (before.at(-1) ?? '').length + 1 };
}

/** Offset at which nesting passes the limit, found without recursion; null where it never does. */
function tooDeep(text: string): number | null {
  const parser = new Parser();
  for (const lexeme of new Lexer().lex(text)) {
    Array.from(parser.next(lexeme));
    if (parser.stack.length > 2 * DEEPEST) return Math.min(parser.offset, text.length);
  }
  return null;
}
