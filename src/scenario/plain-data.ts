import { type Alias, type Document, isAlias, isMap as isYamlMap, isScalar, isSeq, type Node } from 'yaml';
import { type Path, type Place, Places, type TextFault } from './places.js';
import type { RawMap } from './schema-walk.js';
import { show } from './show.js';

const MOST_ALIASES = 50;
const MOST_NODES = 200_000;
const MOST_FAULTS = 1000;
const FORBIDDEN_KEYS = new Set(['__proto__', 'constructor', 'prototype']);

/** Plain data of a document's nodes; aliases are followed, within limits, and dangerous keys refused. */
export class PlainData {
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
    const seen = new Set<string>();
    for (const { key, value } of node.items) {
      if (!isScalar(key)) {
        this.#refuse(node, 'a key is no plain text here');
        continue;
      }
      const name = String(key.value);
      if (FORBIDDEN_KEYS.has(name)) {
        this.#refuse(key, `a scenario may not have the key ${show(name)}`);
        continue;
      }
      if (seen.has(name)) {
        this.#refuseOneMore(
          key,
          `duplicate of line ${this.places.ofKey([...path, name]).line}: a map has each key once`,
        );
        continue;
      }
      seen.add(name);
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

  #refuseOneMore(node: { readonly range?: Node['range'] }, message: string): void {
    if (this.faults.length < MOST_FAULTS) this.faults.push({ ...this.#placeOf(node), message });
  }

  /** Once for each message. */
  #refuse(node: { readonly range?: Node['range'] } | null, message: string): null {
    const place = node === null ? { line: 1, column: 1 } : this.#placeOf(node);
    if (!this.faults.some((fault) => fault.message === message)) this.faults.push({ ...place, message });
    return null;
  }
}
