import { Document, parse } from 'yaml';
import * as z from 'zod';
import { show } from '../../scenario/show.js';
import { ENDINGS, readEnding } from './endings.js';
import { ROLE_NAMES, type Role } from './heads.js';

/** How the columns and words of one lab's log are to be read; kept in a small file beside the log. */
export interface LogMapping {
  /** Of a workbook; null where it has one only. */
  readonly sheet: string | null;
  /** The kind of every tip, where no column says it. */
  readonly kind: string | null;
  /** Heads by what their columns hold. */
  readonly columns: ReadonlyMap<Role, string>;
  /** Units by what a column holds, where its head has none. */
  readonly units: ReadonlyMap<string, string>;
  /** What words of the log mean, as the program calls it. */
  readonly endings: ReadonlyMap<string, string>;
}

/** Where nothing was said yet. */
export const NO_MAPPING: LogMapping = {
  sheet: null,
  kind: null,
  columns: new Map(),
  units: new Map(),
  endings: new Map(),
};

/** Stands for a word of which nobody has said what it means. */
export const OPEN = '?';

/** What a file is called that says how a log is read. */
export function mappingFileOf(log: string): string {
  return `${log}.map.yaml`;
}

const words = z.record(z.string().max(300), z.union([z.string().max(300), z.number()]).transform(String));
const mappingSchema = z.strictObject({
  sheet: z.string().optional(),
  kind: z.string().optional(),
  columns: words.prefault({}),
  units: words.prefault({}),
  endings: words.prefault({}),
});

export type ReadMapping =
  { readonly ok: true; readonly mapping: LogMapping } | { readonly ok: false; readonly messages: readonly string[] };

export function readMapping(text: string): ReadMapping {
  let data: unknown;
  try {
    data = parse(text);
  } catch {
    return { ok: false, messages: ['this is no YAML'] };
  }
  const read = mappingSchema.safeParse(data ?? {});
  if (!read.success)
    return { ok: false, messages: read.error.issues.map(({ path, message }) => `${path.join('.')}: ${message}`) };
  const { sheet = null, kind = null, columns, units, endings } = read.data;
  const isRole = (name: string): name is Role => ROLE_NAMES.some((role) => role === name);
  const known = Object.entries(columns).flatMap(([name, head]) => (isRole(name) ? [[name, head] as const] : []));
  const messages = [
    ...Object.keys(columns).flatMap((name) =>
      isRole(name) ? [] : [`columns.${name}: nothing of a log is called ${show(name)}`],
    ),
    ...Object.entries(endings).flatMap(([word, meant]) => {
      const reading = readEnding(meant);
      if (meant === OPEN) return [`endings: say what ${show(word)} means: one of ${ENDINGS.join(', ')}`];
      return reading.ok && meant !== ''
        ? []
        : [`endings: ${show(word)} is to mean ${show(meant)}; one of ${ENDINGS.join(', ')} is wanted`];
    }),
  ];
  if (messages.length > 0) return { ok: false, messages };
  const mapOf = (entries: Readonly<Record<string, string>>) => new Map(Object.entries(entries));
  return {
    ok: true,
    mapping: { sheet, kind, columns: new Map(known), units: mapOf(units), endings: mapOf(endings) },
  };
}

/** The file's text. Words that nobody has said what they mean have a question mark. */
export function mappingText(log: string, { sheet, kind, columns, units, endings }: LogMapping): string {
  const document = new Document({
    ...(sheet === null ? {} : { sheet }),
    ...(kind === null ? {} : { kind }),
    columns: Object.fromEntries(columns),
    ...(units.size === 0 ? {} : { units: Object.fromEntries(units) }),
    ...(endings.size === 0 ? {} : { endings: Object.fromEntries(endings) }),
  });
  document.commentBefore = ` How \`swap-or-hop fit\` reads ${show(log)}. Columns: what each holds, and its head.\n Endings: a word of the log, and one of ${ENDINGS.join(', ')}.`;
  return document.toString({ lineWidth: 0 });
}
