import { type Document, isMap, isScalar, isSeq } from 'yaml';
import type { LoadedScenario } from '../../scenario/load.js';
import type { Path } from '../../scenario/places.js';
import { writtenOf } from '../../scenario/register.js';
import { sharedSchema } from '../../scenario/schema/scenario.js';
import { outlineOf, type RawMap, schemaAt } from '../../scenario/schema-walk.js';
import { resolveValue, settingsIn } from '../../scenario/value-path.js';
import { documentOf, Refusal } from '../../studies/fit/edit.js';
import { type Holder, TextEdit } from './text-edit.js';

export type WrittenValue =
  { readonly ok: true; readonly text: string } | { readonly ok: false; readonly messages: readonly string[] };

/**
 * A scenario's text with one value put into it, all else kept as it is. What is typed is not checked here: the reader of
 * scenarios says what is wrong with it.
 * @param loaded the scenario that the text last was, by which the path is followed
 * @param value as a person types it; empty takes it away, so that its default comes back
 */
export function writeValue(text: string, loaded: LoadedScenario, path: string, value: string): WrittenValue {
  const resolved = resolveValue(settingsIn(loaded), path);
  if (!resolved.ok) return { ok: false, messages: [resolved.message] };
  const { strategy, path: place, document: settings } = resolved.place;
  const document = documentOf(text);
  if (document.errors.length > 0) return { ok: false, messages: ['the text is no YAML now; put it right first'] };
  try {
    const edit = new TextEdit(text, document);
    const put = { edit, value: dataOf(value), settings, at: [], beside: besideOf(loaded, path, place, settings) };
    if (strategy === null) writeAt(rootOf(document), place, put);
    else writeOwn(document, strategy, path, put);
    return { ok: true, text: edit.text };
  } catch (error) {
    if (error instanceof Refusal) return { ok: false, messages: error.messages };
    throw error;
  }
}

/** A text as YAML has it: a number, a word that stands for yes or no, nothing, or the text. */
function dataOf(typed: string): unknown {
  const text = typed.trim();
  if (text === '') return undefined;
  if (text === 'true' || text === 'false') return text === 'true';
  return /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/iu.test(text) ? Number(text) : text;
}

/** What is put in, and the settings that say what is written short there. */
interface Put {
  readonly edit: TextEdit;
  readonly value: unknown;
  readonly settings: unknown;
  /** Where the map that is begun with stands in them. */
  readonly at: Path;
  /** What has to be written with it where nothing of its kind is: of a time that is left to its default, the other half. */
  readonly beside: RawMap;
}

/** The values without which one says nothing, as they are now. */
function besideOf({ register }: LoadedScenario, written: string, place: Path, settings: unknown): RawMap {
  const key = String(place.at(-1));
  const around = schemaAt(sharedSchema, settings, place.slice(0, -1));
  const completion = around === null ? undefined : outlineOf(around.schema).group?.completion;
  if (completion?.unless.includes(key) !== true) return {};
  const base = written.slice(0, -key.length);
  return Object.fromEntries(
    completion.unless.flatMap((each) =>
      register.filter(({ path }) => each !== key && path === base + each).map((entry) => [each, writtenOf(entry)]),
    ),
  );
}

/** Follows a path through what is written, and makes what is not written on the way. */
function writeAt(root: Holder, path: Path, put: Put): void {
  const { edit, value, settings, at, beside } = put;
  let holder = root;
  for (const [depth, key] of path.entries()) {
    const rest = path.slice(depth + 1);
    const next = holder.get(key, true);
    if (rest.length > 0 && (isMap(next) || isSeq(next))) {
      holder = next;
      continue;
    }
    if (next !== undefined && !isScalar(next))
      throw new Refusal([`${path.slice(0, depth + 1).join('.')} is written as a reference; write it out`]);
    if (value === undefined) {
      if (rest.length === 0 && isMap(holder)) edit.remove(holder, String(key));
      return;
    }
    const map = isMap(holder) ? holder : null;
    if (rest.length === 0) {
      const isAlone = map !== null && !Object.keys(beside).some((each) => map.has(each));
      if (next !== undefined) edit.replace(holder, key, value);
      else if (map !== null) edit.insert(map, { ...(isAlone ? beside : {}), [key]: value });
      return;
    }
    const inner = { ...beside, [rest[rest.length - 1]]: value };
    const within = rest.slice(0, -1).reduceRight<RawMap>((held, name) => ({ [name]: held }), inner);
    const short = next?.value ?? undefined;
    const long = short === undefined ? within : opened([...at, ...path.slice(0, depth + 1)], short, within, settings);
    if (next !== undefined) edit.replace(holder, key, long);
    else if (map !== null) edit.insert(map, { [key]: long });
    return;
  }
}

/** A value written short, such as `45 min` for a step, as the map that it stands for, with what is put beside it. */
function opened(path: Path, short: unknown, within: RawMap, settings: unknown): RawMap {
  const at = schemaAt(sharedSchema, settings, path);
  const group = at === null ? null : outlineOf(at.schema).group;
  return group === null ? within : { [group.shorthand]: short, ...within };
}

function rootOf(document: Document): Holder {
  const root = document.contents;
  if (isMap(root)) return root;
  throw new Refusal(['the file is no scenario']);
}

/** A value of one strategy: `strategies.hop.set.tips.sharp.price` under `set` by its path, else below the key itself. */
function writeOwn(document: Document, strategy: number, path: string, put: Put): void {
  const [, , part, ...rest] = path.split('.');
  const holder = document.getIn(['strategies', strategy, part], true);
  if (!isMap(holder)) throw new Refusal([`${path} is not written where this page can change it; change the text`]);
  writeAt(holder, part === 'set' ? [rest.join('.')] : rest, { ...put, at: [part] });
}
