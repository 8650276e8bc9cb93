import { type Document, isMap, isScalar, isSeq, parseDocument, visit, type YAMLMap, type YAMLSeq } from 'yaml';
import { doubtfulComments, type PlacedComment } from './comments.js';
import type { ScenarioData } from './hazard-data.js';

export type Written =
  | {
      readonly ok: true;
      readonly text: string;
      /** Comments that were kept, but beside a value that is another now. */
      readonly doubtful: readonly PlacedComment[];
    }
  | { readonly ok: false; readonly messages: readonly string[] };

/** Columns at which flow maps and folded texts are broken. */
const LINE_WIDTH = 120;

const YAML = { version: '1.2', schema: 'core', uniqueKeys: true } as const;

/** Something about the file that stops what was begun. */
export class Refusal extends Error {
  constructor(readonly messages: readonly string[]) {
    super(messages.join('; '));
  }
}

export function documentOf(text: string): Document {
  return parseDocument(text, YAML);
}

/**
 * A scenario's text with a change made to it, comments and layout kept. It is not checked as a scenario here.
 * @param change may throw a Refusal
 */
export function edited(text: string, change: (document: Document) => void): Written {
  const document = documentOf(text);
  if (document.errors.length > 0) return { ok: false, messages: ['this is no YAML'] };
  try {
    change(document);
    refuseLostReferences(document);
    const written = inLayoutOf(text, document.toString({ lineWidth: LINE_WIDTH }));
    return { ok: true, text: written, doubtful: doubtfulComments(text, written) };
  } catch (error) {
    if (error instanceof Refusal) return { ok: false, messages: error.messages };
    throw error;
  }
}

/** Refuses where a reference leads to what was replaced. */
function refuseLostReferences(document: Document): void {
  visit(document, {
    Alias: (_, alias) => {
      if (alias.resolve(document) === undefined)
        throw new Refusal([`\`*${alias.source}\` refers to a value that would be replaced; write that value out`]);
    },
  });
}

export function mapAt(document: Document, path: readonly string[]): YAMLMap {
  const found = document.getIn(path, true);
  if (isMap(found)) return found;
  const made = document.createNode({});
  refuseReference(found, path);
  document.setIn(path, made);
  return made;
}

export function listAt(document: Document, path: readonly string[]): YAMLSeq {
  const found = document.getIn(path, true);
  if (isSeq(found)) {
    // An empty list is written `[]`, in which maps would follow one another on one line.
    if (found.items.length === 0) found.flow = false;
    return found;
  }
  refuseReference(found, path);
  const made = document.createNode([]);
  document.setIn(path, made);
  return made;
}

function refuseReference(found: unknown, path: readonly string[]): void {
  const isNothing = found === undefined || (isScalar(found) && (found.value === null || found.value === undefined));
  if (!isNothing) throw new Refusal([`${path.join('.')} is written as a reference; write it out`]);
}

/** Sets several entries of a map, and takes away those that do not go with them. */
export function setEntries(
  document: Document,
  map: YAMLMap,
  entries: ScenarioData,
  without: readonly string[] = [],
): void {
  for (const key of without) map.delete(key);
  for (const [key, value] of Object.entries(entries)) setValue(document, map, key, value);
  // With an uncertainty it is too much for one line.
  map.flow = false;
}

/** Sets a value on one line, and keeps the comments that stand beside what was there. */
export function setValue(document: Document, map: YAMLMap, key: string, value: unknown): void {
  const node = document.createNode(value, { flow: true });
  const before = map.get(key, true);
  if (before !== undefined) {
    node.comment = before.comment ?? null;
    node.commentBefore = before.commentBefore ?? null;
    if (before.spaceBefore === true) node.spaceBefore = true;
  }
  map.set(key, node);
}

export function plainEntries(map: YAMLMap): ScenarioData {
  return Object.fromEntries(
    map.items.flatMap(({ key, value }) => (isScalar(key) && isScalar(value) ? [[String(key.value), value.value]] : [])),
  );
}

/** Says where values come from; what was said of them, or of any below, before, and of their range, is no longer so. */
export function setSource(document: Document, path: string, source: string): void {
  for (const said of ['sources', 'ranges']) {
    const map = document.get(said, true);
    if (!isMap(map)) continue;
    const paths = map.items.flatMap(({ key }) => (isScalar(key) ? [String(key.value)] : []));
    for (const each of paths) if (each.startsWith(`${path}.`) || (said === 'ranges' && each === path)) map.delete(each);
    if (said === 'ranges' && map.items.length === 0) document.delete(said);
  }
  mapAt(document, ['sources']).set(path, document.createNode(source));
}

/**
 * Lines that say the same as one line of the text before get its blanks back, so that little changes but what was written. A line that
 * stood there in several forms is left as it is.
 */
function inLayoutOf(original: string, text: string): string {
  const before = original.replaceAll('\r\n', '\n');
  const forms = new Map<string, string | null>();
  for (const line of before.split('\n')) {
    const known = forms.get(keyOf(line));
    forms.set(keyOf(line), known === undefined || known === line ? line : null);
  }
  const lines = text.split('\n').map((line) => forms.get(keyOf(line)) ?? line);
  const laidOut = lines.join('\n');
  const kept = isSameData(laidOut, text) ? laidOut : text;
  return before === original ? kept : kept.replaceAll('\n', '\r\n');
}

/** Indent and text; blanks within do not count. */
function keyOf(line: string): string {
  return `${line.length - line.trimStart().length} ${line.replace(/\s/gu, '')}`;
}

function isSameData(text: string, other: string): boolean {
  const [one, two] = [text, other].map((each) => documentOf(each));
  return one.errors.length === 0 && JSON.stringify(one.toJS()) === JSON.stringify(two.toJS());
}
