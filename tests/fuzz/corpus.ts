import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { z } from 'zod';
import { prettyJson } from '../../src/report/json.js';
import type { Broken } from './breaks.js';
import { type Data, isData } from './written.js';

/** How cases of a kind are written in a corpus, and read. */
export interface Form<Case> {
  readonly read: (kept: unknown) => Case;
  readonly write: (one: Case) => unknown;
}

/** What JSON says as it is. */
function plain<Case>(schema: z.ZodType<Case>): Form<Case> {
  return { read: (kept) => schema.parse(kept), write: (one) => one };
}

export const TEXT: Form<string> = plain(z.string());
export const WORDS: Form<readonly string[]> = plain(z.array(z.string()).readonly());
export const BROKEN: Form<Broken> = plain(z.object({ text: z.string(), what: z.string() }));
export const DATA: Form<Data> = plain(z.custom<Data>(isData));
export const BYTES: Form<Uint8Array> = {
  read: (kept) => Buffer.from(z.base64().parse(kept), 'base64'),
  write: (bytes) => Buffer.from(bytes).toString('base64'),
};

/** A case that tells something, made as small as can be. */
interface Kept<Case> {
  /** What became of it when it was found, or what it broke. */
  readonly why: string;
  readonly one: Case;
}

const keptSchema = z.array(z.object({ why: z.string(), one: z.unknown() }));

function fileOf(target: string): string {
  return fileURLToPath(new URL(`corpus/${target.replaceAll(' ', '-')}.json`, import.meta.url));
}

/** Cases of a target that were found to be telling, in the order in which they were found. */
export function corpusOf<Case>(target: string, { read }: Form<Case>): readonly Kept<Case>[] {
  const file = fileOf(target);
  if (!existsSync(file)) return [];
  return keptSchema.parse(JSON.parse(readFileSync(file, 'utf8'))).map(({ why, one }) => ({ why, one: read(one) }));
}

export function keep<Case>(target: string, form: Form<Case>, found: readonly Kept<Case>[]): void {
  const all = [...corpusOf(target, form), ...found];
  writeFileSync(fileOf(target), prettyJson(all.map(({ why, one }) => ({ why, one: form.write(one) }))));
}
