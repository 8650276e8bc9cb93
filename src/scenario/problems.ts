import * as z from 'zod';
import { type Path, pathKey } from './places.js';
import { nearest, suggestion, unknownKey } from './nearest.js';
import { amountRefusal, EXPOSURE_UNITS } from './exposure.js';
import {
  childOf,
  dataAt,
  entryOf,
  evidentOption,
  isMap,
  keysOf,
  leavesOf,
  outlineOf,
  type Schema,
  schemaAt,
} from './schema-walk.js';
import { show } from './show.js';
import { wording } from './wording.js';

/** Something that the schema refuses: at a value, or at a key that should not stand there. */
export interface Problem {
  readonly path: Path;
  readonly at: 'key' | 'value';
  readonly message: string;
  /** Nothing is written there at all. */
  readonly missing?: boolean;
}

export type Parsed<T> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problems: readonly Problem[] };

/**
 * What a schema makes of raw data with all defaults filled in, every mistake in plain words. The data stand at a path of
 * `document`, as written or as typed.
 */
export function readAs<T>(
  schema: z.core.$ZodType<T>,
  data: unknown,
  at: Path = [],
  document: unknown = data,
): Parsed<T> {
  const result = z.safeParse(schema, data, { error: wording, reportInput: true });
  const problems = new Problems(schema, data, at.at(-1));
  if (!result.success) for (const issue of result.error.issues) problems.add(issue, []);
  const found = [
    ...problems.found.map((problem) => ({ ...problem, path: [...at, ...problem.path] })),
    ...amountProblems(schema, data, at, document),
  ];
  return result.success && found.length === 0 ? { ok: true, value: result.data } : { ok: false, problems: found };
}

/** Amounts of exposure that are not what the hazard that holds them counts. */
function amountProblems(schema: Schema, data: unknown, at: Path, document: unknown): readonly Problem[] {
  return leavesOf(schema, data, at).flatMap(({ leaf, path, written }): readonly Problem[] => {
    if (leaf.form !== 'exposure' || (typeof written !== 'number' && typeof written !== 'string')) return [];
    const per = entryOf(dataAt(document, path.slice(0, path.indexOf('life'))), 'per');
    const unit = EXPOSURE_UNITS.find((each) => each === per);
    const message = unit === undefined ? null : amountRefusal(unit, written);
    return message === null ? [] : [{ path, at: 'value', message }];
  });
}

class Problems {
  readonly found: Problem[] = [];
  readonly #schema: Schema;
  readonly #data: unknown;
  readonly #name: string | number | undefined;
  readonly #unions = new Set<string>();

  /** @param name key under which the data stand, if under any */
  constructor(schema: Schema, data: unknown, name: string | number | undefined) {
    this.#name = name;
    this.#schema = schema;
    this.#data = data;
  }

  /** An issue at a path below `base`; where it lies in one of several forms, the evident form speaks instead of all. */
  add(issue: z.core.$ZodIssue, base: Path): void {
    const path = [...base, ...issue.path.map((key) => (typeof key === 'symbol' ? String(key) : key))];
    const union = this.#unionOn(path, base.length);
    if (union === null) this.#enter(issue, path);
    else if (!this.#unions.has(pathKey(union.path))) {
      this.#unions.add(pathKey(union.path));
      const result = z.safeParse(union.option, union.data, { error: wording, reportInput: true });
      if (result.success) this.#enter(issue, path);
      else for (const inner of result.error.issues) this.add(inner, union.path);
    }
  }

  /** The first place on the way to `path`, at least `from` deep, where several forms may stand, with the evident one. */
  #unionOn(path: Path, from: number): { readonly path: Path; readonly option: Schema; readonly data: unknown } | null {
    let schema: Schema | null = this.#schema;
    let data = this.#data;
    for (let depth = 0; depth <= path.length && schema !== null; depth += 1) {
      const outline = outlineOf(schema);
      const here = path.slice(0, depth);
      if (depth >= from && outline.form === 'options' && outline.by === null && !this.#seenAsBase(here, from)) {
        const option = evidentOption(outline.options, data) ?? (outline.hasWords ? null : (outline.options[0] ?? null));
        if (option !== null) return { path: here, option, data };
      }
      const key = path.at(depth);
      if (key === undefined) return null;
      schema = childOf(schema, data, key);
      data = entryOf(data, key);
    }
    return null;
  }

  #seenAsBase(here: Path, from: number): boolean {
    return here.length === from && this.#unions.has(pathKey(here)) && from > 0;
  }

  #enter(issue: z.core.$ZodIssue, path: Path): void {
    if (issue.code === 'unrecognized_keys') {
      for (const key of issue.keys) this.#enterUnknownKey(path, key);
    } else if (issue.code === 'invalid_key') {
      this.found.push({
        path,
        at: 'key',
        message: issue.issues[0]?.message ?? `read ${show(path.at(-1))}; another name is wanted`,
      });
    } else if (issue.code === 'invalid_union') {
      this.#enterForm(issue, path);
    } else {
      this.#enterValue(path, issue.code === 'invalid_type' ? this.#withExample(path, issue.message) : issue.message);
    }
  }

  /** A single value where a map is wanted is mostly one of its entries; then the map is shown with it. */
  #withExample(path: Path, message: string): string {
    const place = this.#at(path);
    if (place === null || (typeof place.data !== 'string' && typeof place.data !== 'number')) return message;
    const { schema, data } = place;
    const outline = outlineOf(schema);
    const kinds = entryOf(this.#data, 'tips');
    const isByKind = outline.form === 'record' && outlineOf(outline.value).leaf !== null && isMap(kinds);
    const keys = isByKind ? Object.keys(kinds).slice(0, 1) : keysOf(schema, data);
    const key = keys.find((each) => z.safeParse(schema, { [each]: data }).success);
    return key === undefined ? message : message.replace(/ is wanted$/u, ` such as ${show(`{ ${key}: ${data} }`)}$&`);
  }

  #enterValue(path: Path, message: string): void {
    const missing = message.startsWith('is missing');
    this.found.push({
      path,
      at: 'value',
      message: missing ? `${show(path.at(-1) ?? this.#name)} ${message}` : message,
      missing,
    });
  }

  #enterUnknownKey(path: Path, key: string): void {
    const holder = this.#at(path);
    const wanted = holder === null ? [] : keysOf(holder.schema, holder.data);
    this.found.push({
      path: [...path, key],
      at: 'key',
      message: unknownKey(key, wanted),
    });
  }

  /** The word that says which form a map has (`distribution`, `cause`) is missing or unknown, or none of the forms fits. */
  #enterForm(issue: z.core.$ZodIssueInvalidUnion, path: Path): void {
    const discriminator = issue.discriminator;
    if (discriminator === undefined) {
      this.found.push({
        path,
        at: 'value',
        message:
          issue.message === 'Invalid input'
            ? `read ${show(issue.input)}, which has none of the forms that may stand here`
            : issue.message,
      });
      return;
    }
    const holder = path.at(-1) === discriminator ? path.slice(0, -1) : path;
    const data = this.#at(holder)?.data;
    const read = entryOf(data, discriminator);
    const old = isMap(data) ? Object.keys(data).find((key) => nearest(key, [discriminator]) !== null) : undefined;
    if (read === undefined && old !== undefined) {
      this.found.push({ path: [...holder, old], at: 'key', message: unknownKey(old, [discriminator]) });
      return;
    }
    const wanted = this.#wordsOf(holder, discriminator);
    const message =
      read === undefined
        ? `is missing; expected one of ${wanted.map((each) => `\`${each}\``).join(', ')}`
        : `read ${show(read)}${suggestion(read, wanted)}`;
    this.#enterValue([...holder, discriminator], message);
  }

  #wordsOf(path: Path, discriminator: string): readonly string[] {
    const holder = this.#at(path);
    const outline = holder === null ? null : outlineOf(holder.schema);
    if (outline?.form !== 'options') return [];
    return outline.options.flatMap((option) => {
      const word = childOf(option, {}, discriminator);
      const single = word === null ? null : outlineOf(word);
      return single?.form === 'single' && typeof single.literal === 'string' ? [single.literal] : [];
    });
  }

  #at(path: Path): { readonly schema: Schema; readonly data: unknown } | null {
    return schemaAt(this.#schema, this.#data, path);
  }
}

/** Without the missing keys that stand there misspelt: one mistake, one fault. */
export function withoutEchoes(problems: readonly Problem[]): readonly Problem[] {
  const misspelt = problems.filter((problem) => problem.at === 'key');
  return problems.filter((problem) => {
    const key = problem.path.at(-1);
    if (problem.missing !== true || typeof key !== 'string') return true;
    const holder = pathKey(problem.path.slice(0, -1));
    return !misspelt.some(
      (other) => pathKey(other.path.slice(0, -1)) === holder && nearest(String(other.path.at(-1)), [key]) !== null,
    );
  });
}
