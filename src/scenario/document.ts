import {
  type Alias,
  isAlias,
  isMap as isYamlMap,
  isScalar,
  isSeq,
  Lexer,
  LineCounter,
  parseDocument,
  Parser,
  type Document,
  type Node,
} from 'yaml';
import type { RawMap } from './schema-walk.js';
import { show } from './show.js';

/** A place in a file, counted from 1. */
export interface Place {
  readonly line: number;
  readonly column: number;
}

/** Something wrong with the text itself, before its meaning is looked at. */
export interface TextFault extends Place {
  readonly message: string;
}

/** Where keys and values stand. */
export class Places {
  readonly #keys = new Map<string, Place>();
  readonly #values = new Map<string, Place>();

  enterKey(path: Path, place: Place): void {
    this.#keys.set(pathKey(path), place);
  }

  enterValue(path: Path, place: Place): void {
    this.#values.set(pathKey(path), place);
  }

  /** Whether a value is written at a path. */
  has(path: Path): boolean {
    return this.#values.has(pathKey(path));
  }

  /** Of a key; of the value where a list has no key; of what holds it where nothing is written there. */
  ofKey(path: Path): Place {
    const at = pathKey(path);
    return this.#keys.get(at) ?? this.#values.get(at) ?? this.#outer(path);
  }

  /** Of a value; of what should hold it where nothing is written there. */
  ofValue(path: Path): Place {
    return this.#values.get(pathKey(path)) ?? this.#outer(path);
  }

  #outer(path: Path): Place {
    return path.length === 0 ? { line: 1, column: 1 } : this.ofKey(path.slice(0, -1));
  }
}

export type Path = readonly (string | number)[];

export function pathKey(path: Path): string {
  return path.join('\u0000');
}

export type ReadDocument =
  | { readonly ok: true; readonly raw: RawMap; readonly places: Places }
  | { readonly ok: false; readonly faults: readonly TextFault[] };

/** Characters of a scenario file; more is another file. */
export const GREATEST_LENGTH = 1_000_000;
const DEEPEST = 60;
const MOST_ALIASES = 50;
const MOST_NODES = 200_000;
const FORBIDDEN_KEYS = new Set(['__proto__', 'constructor', 'prototype']);

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
  const faults: TextFault[] = [...document.errors, ...document.warnings].map((error) => ({
    ...at(error.pos[0]),
    message: yamlMessage(error.code, error.message),
  }));
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
  DUPLICATE_KEY: 'this key stands twice in one map; each may stand once',
  MULTIPLE_DOCS: 'a second document begins here (`---`); a scenario is one document',
  NON_STRING_KEY: 'this key is no plain text; a key such as `lines` is wanted',
  TAB_AS_INDENT: 'this line is indented with a tab; YAML wants spaces',
  TAG_RESOLVE_FAILED: 'this tag (`!…`) is not known; a scenario has no tags',
};

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
    for (const token of parser.next(lexeme)) void token;
    if (parser.stack.length > 2 * DEEPEST) return Math.min(parser.offset, text.length);
  }
  return null;
}

/** Plain data of a document's nodes; aliases are followed, within limits, and dangerous keys refused. */
class PlainData {
  readonly places = new Places();
  readonly faults: TextFault[] = [];
  readonly #document: Document.Parsed;
  readonly #at: (offset: number) => Place;
  #aliases = 0;
  #nodes = 0;

  constructor(document: Document.Parsed, at: (offset: number) => Place) {
    this.#document = document;
    this.#at = at;
  }

  of(node: unknown, path: Path): unknown {
    this.#nodes += 1;
    if (this.#nodes > MOST_NODES)
      return this.#refuse(null, `the file has more than ${MOST_NODES} values once its aliases are followed`);
    if (isAlias(node)) return this.#ofAlias(node, path);
    if (isYamlMap(node)) return this.#ofMap(node, path);
    if (isSeq(node)) {
      this.places.enterValue(path, this.#placeOf(node));
      return node.items.map((item, index) => this.of(item, [...path, index]));
    }
    if (isScalar(node)) {
      this.places.enterValue(path, this.#placeOf(node));
      return node.value;
    }
    return null;
  }

  #ofMap(
    node: {
      readonly items: readonly { readonly key: unknown; readonly value: unknown }[];
      readonly range?: Node['range'];
    },
    path: Path,
  ): RawMap {
    this.places.enterValue(path, this.#placeOf(node));
    const map: RawMap = {};
    for (const { key, value } of node.items) {
      if (!isScalar(key)) {
        this.#refuse(node, 'a key is no plain text here');
        continue;
      }
      const name = String(key.value);
      if (FORBIDDEN_KEYS.has(name)) {
        this.#refuse(key, `read the key ${show(name)}, which a scenario may not have`);
        continue;
      }
      this.places.enterKey([...path, name], this.#placeOf(key));
      if (value === null) this.places.enterValue([...path, name], this.#placeOf(key));
      map[name] = this.of(value, [...path, name]);
    }
    return map;
  }

  #ofAlias(alias: Alias, path: Path): unknown {
    this.#aliases += 1;
    if (this.#aliases > MOST_ALIASES)
      return this.#refuse(alias, `more than ${MOST_ALIASES} aliases are followed up to here`);
    const node = alias.resolve(this.#document);
    if (node === undefined)
      return this.#refuse(alias, `read the alias \`*${alias.source}\`, which names nothing above it`);
    const value = this.of(node, path);
    this.places.enterValue(path, this.#placeOf(alias));
    return value;
  }

  #placeOf(node: { readonly range?: Node['range'] }): Place {
    return this.#at(node.range?.[0] ?? 0);
  }

  #refuse(node: { readonly range?: Node['range'] } | null, message: string): null {
    const place = node === null ? { line: 1, column: 1 } : this.#placeOf(node);
    if (!this.faults.some((fault) => fault.message === message)) this.faults.push({ ...place, message });
    return null;
  }
}
