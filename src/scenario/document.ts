import { Lexer, parseDocument, Parser } from 'yaml';
import { LineStarts } from './line-starts.js';
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
/** Words, signs, blanks and ends of lines; the largest scenario that we know has 1700. */
const MOST_WORDS = 30_000;

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
  const source = text.replace(/^\uFEFF/u, '');
  const lines = new LineStarts(source);
  const at = (offset: number): Place => lines.placeOf(offset);
  const odd = /[^\t\n\r\u0020-\u007E\u0085\u00A0-\uD7FF\uE000-\uFFFC\u{10000}-\u{10FFFF}]/u.exec(source);
  if (odd !== null)
    return refuse(`read ${show(odd[0])}, which no text file has; a scenario is YAML text in UTF-8`, at(odd.index));
  const beyond = beyondLimits(source);
  if (beyond !== null) return refuse(beyond.message, at(beyond.offset));
  const document = parseDocument(source, {
    version: '1.2',
    schema: 'core',
    // Its own check takes a minute for a map of a hundred thousand keys; ours is in PlainData.
    uniqueKeys: false,
    prettyErrors: false,
    stringKeys: true,
  });
  const faults = oncePerLine(
    [...document.errors, ...document.warnings].map((error) => ({
      ...at(error.pos[0]),
      message: yamlMessage(error.code, error.message),
    })),
  );
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
  MULTIPLE_DOCS: 'a second document begins here (`---`); a scenario is one document',
  NON_STRING_KEY: 'this key is no plain text; a key such as `lines` is wanted',
  TAB_AS_INDENT: 'this line is indented with a tab; YAML wants spaces',
  TAG_RESOLVE_FAILED: 'this tag (`!…`) is not known; a scenario has no tags',
};

/** Each further colon of one line gives the same again. */
function oncePerLine(faults: readonly TextFault[]): readonly TextFault[] {
  const first = new Map<string, TextFault>();
  for (const fault of faults) {
    const key = `${fault.line} ${fault.message}`;
    if (!first.has(key)) first.set(key, fault);
  }
  return [...first.values()];
}

function yamlMessage(code: string, message: string): string {
  return YAML_WORDS[code] ?? `this is no YAML: ${message}`;
}

/** What is beyond a limit that keeps reading short, found without recursion; null where nothing is. */
function beyondLimits(text: string): { readonly message: string; readonly offset: number } | null {
  const parser = new Parser();
  let words = 0;
  for (const lexeme of new Lexer().lex(text)) {
    Array.from(parser.next(lexeme));
    words += 1;
    const offset = Math.min(parser.offset, text.length);
    if (parser.stack.length > 2 * DEEPEST) {
      const message = `maps and lists stand more than ${DEEPEST} deep in each other here; a scenario needs no more than ten`;
      return { message, offset };
    }
    if (words > MOST_WORDS)
      return {
        message:
          'up to here the file has more values than a scenario may have; leave out what does not belong to this plan',
        offset,
      };
  }
  return null;
}
