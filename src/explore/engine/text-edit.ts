import {
  type Document,
  isCollection,
  isNode,
  isScalar,
  isSeq,
  type Pair,
  stringify,
  type YAMLMap,
  type YAMLSeq,
} from 'yaml';
import { Refusal } from '../../studies/fit/edit.js';

export type Holder = YAMLMap | YAMLSeq;

/** Changes to a text in YAML, each in its place, so that all else stays as it is written to the last blank. */
export class TextEdit {
  private readonly changes: { readonly from: number; readonly to: number; readonly text: string }[] = [];
  private readonly lineEnd: string;

  constructor(
    private readonly source: string,
    private readonly document: Document,
  ) {
    this.lineEnd = source.includes('\r\n') ? '\r\n' : '\n';
  }

  get text(): string {
    const inOrder = this.changes.toSorted((a, b) => b.from - a.from);
    return inOrder.reduce((text, { from, to, text: put }) => text.slice(0, from) + put + text.slice(to), this.source);
  }

  /** Writes a value in the place of one that is there, a word or a number. */
  replace(holder: Holder, key: string | number, value: unknown): void {
    const node = holder.get(key, true);
    const [from, to] = rangeOf(node);
    // Behind `key:` with nothing.
    const gap = from === to && !/\s/u.test(this.source.charAt(from - 1)) ? ' ' : '';
    this.changes.push({ from, to, text: gap + valueText(value, this.isInFlow(holder)) });
  }

  /** Writes entries that a map has not got, behind its last one. */
  insert(map: YAMLMap, entries: Readonly<Record<string, unknown>>): void {
    const isInFlow = this.isInFlow(map);
    const texts = Object.entries(entries).map(
      ([key, value]) => `${valueText(key, isInFlow)}: ${valueText(value, isInFlow)}`,
    );
    const [, end] = rangeOf(map);
    if (map.flow === true) {
      const before = /\s*\}$/u.exec(this.source.slice(0, end))?.[0].length ?? 1;
      const at = end - before;
      const isEmpty = map.items.length === 0;
      this.changes.push({ from: at, to: end, text: `${isEmpty ? ' ' : ', '}${texts.join(', ')} }` });
      return;
    }
    const [first] = map.items;
    const start = rangeOf(first.key)[0];
    const indent = ' '.repeat(start - this.lineStart(start));
    const at = this.lineStop(contentEnd(map));
    this.changes.push({ from: at, to: at, text: texts.map((text) => this.lineEnd + indent + text).join('') });
  }

  /** Takes an entry of a map away; nothing where it has none. @throws Refusal where that would be more than a line */
  remove(map: YAMLMap, key: string): void {
    const place = map.items.findIndex((item) => isScalar(item.key) && String(item.key.value) === key);
    if (place < 0) return;
    const pair = map.items[place];
    const start = rangeOf(pair.key)[0];
    const end = isNode(pair.value) ? contentEnd(pair.value) : rangeOf(pair.key)[1];
    if (map.flow === true) {
      const [from, to] =
        place + 1 < map.items.length
          ? [start, rangeOf(map.items[place + 1].key)[0]]
          : [place === 0 ? start : endOf(map.items[place - 1]), end];
      this.changes.push({ from, to, text: '' });
      return;
    }
    const from = this.lineStart(start);
    const isOwnLine = this.source.slice(from, start).trim() === '';
    if (!isOwnLine || map.items.length === 1)
      throw new Refusal(['this value cannot be taken away here without what stands around it; change the text']);
    this.changes.push({ from, to: Math.min(this.source.length, this.lineStop(end) + this.lineEnd.length), text: '' });
  }

  /** Whether a map or list is written between brackets, or inside of what is. */
  private isInFlow(holder: Holder): boolean {
    if (holder.flow === true) return true;
    const [start] = rangeOf(holder);
    let isWithin = false;
    const look = (node: unknown): void => {
      if (!isCollection(node) || node === holder) return;
      const [from, to] = rangeOf(node);
      if (start < from || start >= to) return;
      isWithin ||= node.flow === true;
      for (const item of node.items) look(isNode(item) ? item : pairValue(item));
    };
    look(this.document.contents);
    return isWithin;
  }

  private lineStart(at: number): number {
    return this.source.lastIndexOf('\n', at - 1) + 1;
  }

  /** The end of the line of a place, before what ends it. */
  private lineStop(at: number): number {
    const next = this.source.indexOf('\n', at);
    const stop = next < 0 ? this.source.length : next;
    return this.source.charAt(stop - 1) === '\r' ? stop - 1 : stop;
  }
}

function pairValue(item: unknown): unknown {
  return typeof item === 'object' && item !== null && 'value' in item ? item.value : null;
}

/** Where a node begins, and where it ends without what follows it. */
function rangeOf(node: unknown): readonly [number, number] {
  const range = isNode(node) ? node.range : null;
  if (range === null || range === undefined) throw new Refusal(['this value cannot be changed here; change the text']);
  return [range[0], range[1]];
}

/** Where the last word of a node ends, comments and blank lines after it left out. */
function contentEnd(node: unknown): number {
  if (isCollection(node) && node.flow !== true) {
    const last: unknown = node.items.at(-1);
    if (last !== undefined) return isSeq(node) ? contentEnd(last) : endOf(last);
  }
  return rangeOf(node)[1];
}

function endOf(pair: unknown): number {
  const { key, value } = isPairOfNodes(pair);
  return isNode(value) ? contentEnd(value) : rangeOf(key)[1];
}

function isPairOfNodes(pair: unknown): Pick<Pair, 'key' | 'value'> {
  if (typeof pair === 'object' && pair !== null && 'key' in pair && 'value' in pair) return pair;
  throw new Refusal(['this value cannot be changed here; change the text']);
}

/** A value on one line. */
function valueText(value: unknown, isInFlow: boolean): string {
  if (typeof value === 'object' && value !== null) {
    const entries = Object.entries(value).map(([key, each]) => `${valueText(key, true)}: ${valueText(each, true)}`);
    return entries.length === 0 ? '{}' : `{ ${entries.join(', ')} }`;
  }
  const text = stringify(value, { lineWidth: 0 }).trimEnd();
  const isOneLine = !text.includes('\n') && !(isInFlow && /[[\]{},]/u.test(text));
  return isOneLine ? text : JSON.stringify(value);
}
