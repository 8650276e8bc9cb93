import { type Document, isAlias, isMap, isScalar, isSeq, parseDocument, visit, type YAMLMap, type YAMLSeq } from 'yaml';
import { suggestion } from '../../scenario/nearest.js';
import { shellOption } from '../../scenario/shell-line.js';
import { doubtfulComments, type PlacedComment } from './comments.js';
import { bluntingData, bluntingSource, hazardData, hazardSources, type ScenarioData } from './hazard-data.js';
import type { CauseFit, FitSummary } from './results.js';

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

/** A form of the file that stops what was begun. */
class Refusal extends Error {}

/**
 * Writes what was fitted into a scenario's text, comments kept: each hazard takes the place of that of the same cause, or is added, and
 * `sources` say where it comes from. The text is not checked as a scenario here.
 */
export function writeInto(text: string, summary: FitSummary): Written {
  const document = parseDocument(text, YAML);
  const kinds = [...summary.kinds, ...summary.blunting].map(({ kind }) => kind);
  const messages = [...new Set(kinds.flatMap((kind) => missingIn(document, kind)))];
  if (document.errors.length > 0) messages.push('this is no YAML');
  if (messages.length > 0) return { ok: false, messages };
  try {
    for (const fit of summary.kinds.flatMap(({ causes }) => causes)) writeHazard(document, summary, fit);
    writeBlunting(document, summary);
    refuseLostReferences(document);
    const written = inLayoutOf(text, document.toString({ lineWidth: LINE_WIDTH }));
    return { ok: true, text: written, doubtful: doubtfulComments(text, written) };
  } catch (error) {
    if (error instanceof Refusal) return { ok: false, messages: [error.message] };
    throw error;
  }
}

/** What is wrong where a scenario's text has no such kind of tips; nothing where it has. */
export function missingKind(text: string, kind: string): readonly string[] {
  return missingIn(parseDocument(text, YAML), kind);
}

function missingIn(document: Document, kind: string): readonly string[] {
  if (isMap(document.getIn(['tips', kind], true))) return [];
  const tips = document.get('tips', true);
  const kinds = isMap(tips) ? tips.items.flatMap(({ key }) => (isScalar(key) ? [String(key.value)] : [])) : [];
  const one = kinds.length === 0 ? 'KIND' : kinds[0];
  return [
    `tips of kind \`${kind}\` are in the log, but the scenario has no such kind${suggestion(kind, kinds)}; say which it is with ${shellOption('tip', `${kind}=${one}`)}, or leave them out with ${shellOption('tip', `${kind}=`)}`,
  ];
}

/** Refuses where a reference leads to what was replaced. */
function refuseLostReferences(document: Document): void {
  visit(document, {
    Alias: (_, alias) => {
      if (alias.resolve(document) === undefined)
        throw new Refusal(`\`*${alias.source}\` refers to a value that would be replaced; write that value out`);
    },
  });
}

function writeHazard(document: Document, summary: FitSummary, fit: CauseFit): void {
  if (fit.hazard === null) return;
  const holder = ['tips', fit.kind, 'hazards'];
  const hazards = listAt(document, holder);
  const index = placeOf(document, hazards, fit);
  const entries = hazardData(fit.hazard);
  const name = nameIn(hazards, fit, index);
  if (index === hazards.items.length) hazards.add(document.createNode({ cause: fit.cause }));
  const hazard = hazards.get(index, true);
  if (!isMap(hazard)) throw new Refusal(`${holder.join('.')}.${name} is written as a reference; write it out`);
  setValue(document, hazard, 'per', entries.per);
  setValue(document, hazard, 'life', entries.life);
  if (Object.keys(entries.acceleration).length > 0) {
    const before = hazard.get('acceleration', true);
    const kept = isMap(before) ? plainEntries(before) : {};
    setValue(document, hazard, 'acceleration', { ...kept, ...entries.acceleration });
  }
  setValue(document, hazard, 'uncertainty', entries.uncertainty);
  const path = [...holder, name].join('.');
  for (const [part, source] of hazardSources(path, summary, fit)) setSource(document, part, source);
}

/** The place of the hazard that is replaced; one past the end where there is none of the cause. */
function placeOf(document: Document, hazards: YAMLSeq, { kind, cause, per }: CauseFit): number {
  const same = hazards.items.flatMap((item, index) => {
    const hazard = isAlias(item) ? item.resolve(document) : item;
    return isMap(hazard) && hazard.get('cause') === cause ? [index] : [];
  });
  if (same.length === 0) return hazards.items.length;
  const counted = same.filter((index) => hazards.getIn([index, 'per']) === per);
  const sure = [counted, same].find(({ length }) => length === 1);
  if (sure !== undefined) return sure[0];
  throw new Refusal(
    `tips.${kind}.hazards has ${same.length} hazards of ${cause}; which is meant? Leave one of them, or one per ${per}`,
  );
}

/** How a path names it: by its cause, or its number where several have that. */
function nameIn(hazards: YAMLSeq, { cause }: CauseFit, index: number): string | number {
  const others = hazards.items.filter((item, at) => at !== index && isMap(item) && item.get('cause') === cause);
  return others.length === 0 ? cause : index;
}

function writeBlunting(document: Document, summary: FitSummary): void {
  for (const blunting of summary.blunting) {
    const { wear, radius } = bluntingData(blunting);
    setEntries(document, mapAt(document, ['tips', blunting.kind, 'radius']), radius);
    setEntries(document, mapAt(document, ['tips', blunting.kind, 'blunting', 'wear']), wear, ['archardK', 'hardness']);
    const source = bluntingSource(blunting);
    setSource(document, `tips.${blunting.kind}.blunting.wear`, source);
    setSource(document, `tips.${blunting.kind}.radius`, source);
  }
}

function mapAt(document: Document, path: readonly string[]): YAMLMap {
  const found = document.getIn(path, true);
  if (isMap(found)) return found;
  const made = document.createNode({});
  refuseReference(found, path);
  document.setIn(path, made);
  return made;
}

function listAt(document: Document, path: readonly string[]): YAMLSeq {
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
  if (!isNothing) throw new Refusal(`${path.join('.')} is written as a reference; write it out`);
}

/** Sets several entries of a map, and takes away those that do not go with them. */
function setEntries(document: Document, map: YAMLMap, entries: ScenarioData, without: readonly string[] = []): void {
  for (const key of without) map.delete(key);
  for (const [key, value] of Object.entries(entries)) setValue(document, map, key, value);
  // With an uncertainty it is too much for one line.
  map.flow = false;
}

/** Sets a value on one line, and keeps the comments that stand beside what was there. */
function setValue(document: Document, map: YAMLMap, key: string, value: unknown): void {
  const node = document.createNode(value, { flow: true });
  const before = map.get(key, true);
  if (before !== undefined) {
    node.comment = before.comment ?? null;
    node.commentBefore = before.commentBefore ?? null;
    if (before.spaceBefore === true) node.spaceBefore = true;
  }
  map.set(key, node);
}

function plainEntries(map: YAMLMap): ScenarioData {
  return Object.fromEntries(
    map.items.flatMap(({ key, value }) => (isScalar(key) && isScalar(value) ? [[String(key.value), value.value]] : [])),
  );
}

/** Says where values come from; what was said of them, or of any below, before, and of their range, is no longer so. */
function setSource(document: Document, path: string, source: string): void {
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
  const [one, two] = [text, other].map((each) => parseDocument(each, YAML));
  return one.errors.length === 0 && JSON.stringify(one.toJS()) === JSON.stringify(two.toJS());
}
