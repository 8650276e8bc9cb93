import { type FileMetaData, parquetMetadata, parquetRead } from 'hyparquet';
import { parquetWriteBuffer } from 'hyparquet-writer';
import { z } from 'zod';
import type { Batch } from '../../study/work/batch.js';
import type { Answer } from '../../study/work/order.js';
import { Broken, checkSeal, seal, SEAL, UNSEALED } from './seal.js';
import { fromSums, sumsSchema } from './sums.js';

/** The answer to a stretch of an order, kept in a file. */
export interface Kept {
  /** Of the order, see `orderKey`. */
  readonly key: string;
  readonly from: number;
  readonly to: number;
  /** Names of the strategies, for people; in the order of the answer. */
  readonly strategies: readonly string[];
  readonly answer: Answer;
}

/** What a file says of a stretch before its numbers are read. */
export type KeptHead = Omit<Kept, 'answer'>;

/** Notes about a file, by their names. */
export type Notes = Readonly<Record<string, string>>;

/** A file that was opened and whose checksum is right. */
export interface KeptFile {
  readonly notes: Notes;
  readonly stretches: readonly KeptHead[];
  /**
   * Reads the answer to one of the stretches, by its place in the list.
   * @throws Broken where its numbers cannot be read
   */
  readonly read: (place: number) => Promise<Answer>;
}

/** How numbers are packed: as small as can be, or as fast. */
const PACKINGS = {
  small: { column: {}, file: {} },
  quick: { column: { encoding: 'PLAIN' }, file: { codec: 'UNCOMPRESSED' } },
} as const;
const STRETCHES = 'swap-or-hop.stretches';
/** A million replications of a dozen strategies. */
const MOST_ROWS = 12_000_000;

const headSchema = z.object({
  key: z.string(),
  from: z.int().min(1),
  to: z.int().min(1),
  strategies: z.array(z.string()),
  columns: z.array(z.string()),
  sums: z.array(sumsSchema.nullable()),
});
type Head = z.infer<typeof headSchema>;

/**
 * A Parquet file with a row for each replication of each strategy of each stretch, and a group of rows for each stretch.
 * Columns: `stretch` (from 0), `strategy`, `replication`, and those of `Batch`; where a stretch has no such column there is
 * NaN. Sums over a stretch stand in the footer. The same answers give the same bytes.
 * @param packing `small` for a file that is kept and sent, `quick` for one that is soon read or thrown away
 */
export function keptFile(notes: Notes, stretches: readonly Kept[], packing: keyof typeof PACKINGS): Buffer {
  const batches = stretches.flatMap((kept, stretch) =>
    kept.answer.map((batch, part) => ({ ...kept, stretch, strategy: kept.strategies[part], batch })),
  );
  const rows = batches.reduce((sum, { batch }) => sum + batch.count, 0);
  const names = [...new Set(batches.flatMap(({ batch }) => Object.keys(batch.columns)))].sort();
  const [stretch, replication] = [new Int32Array(rows), new Int32Array(rows)];
  const strategy: string[] = [];
  const columns = names.map((name) => ({ name, data: new Float64Array(rows).fill(NaN) }));
  let row = 0;
  for (const each of batches) {
    const end = row + each.batch.count;
    stretch.fill(each.stretch, row, end);
    for (let i = row; i < end; i += 1) replication[i] = each.from + i - row;
    for (let i = row; i < end; i += 1) strategy.push(each.strategy);
    for (const { name, data } of columns) if (name in each.batch.columns) data.set(each.batch.columns[name], row);
    row = end;
  }
  const { column, file } = PACKINGS[packing];
  const written = parquetWriteBuffer({
    columnData: [
      { name: 'stretch', data: stretch, type: 'INT32', nullable: false, ...column },
      { name: 'strategy', data: strategy, type: 'STRING', nullable: false },
      { name: 'replication', data: replication, type: 'INT32', nullable: false, ...column },
      ...columns.map(({ name, data }) => ({ name, data, type: 'DOUBLE' as const, nullable: false, ...column })),
    ],
    ...file,
    rowGroupSize: stretches.map(({ answer }) => answer.reduce((sum, { count }) => sum + count, 0)),
    statistics: false,
    kvMetadata: [
      ...Object.entries(notes).map(([key, value]) => ({ key, value })),
      { key: STRETCHES, value: JSON.stringify(stretches.map(headOf)) },
      { key: SEAL, value: UNSEALED },
    ],
    createdBy: 'swap-or-hop',
  });
  const bytes = Buffer.from(written);
  seal(bytes);
  return bytes;
}

function headOf({ key, from, to, strategies, answer }: Kept): z.input<typeof headSchema> {
  return {
    ...{ key, from, to, strategies: [...strategies] },
    columns: Object.keys(answer[0].columns),
    sums: answer.map(({ sums }) => (sums === null ? null : fromSums(sums))),
  };
}

/** @throws Broken where it is no sealed file, or not as it was written */
export function openKept(bytes: Buffer): KeptFile {
  checkSeal(bytes);
  const file = {
    byteLength: bytes.length,
    slice: (start: number, end?: number) => new Uint8Array(bytes.subarray(start, end)).buffer,
  };
  const { metadata, notes, heads } = footerOf(bytes);
  const starts = heads.map((_, place) => rowsIn(heads.slice(0, place)));
  return {
    notes,
    stretches: heads,
    read: async (place) => {
      const head = heads[place];
      const start = starts[place];
      const columns = new Map(head.columns.map((name) => [name, new Float64Array(rowsOf(head))]));
      try {
        await parquetRead({
          ...{ file, metadata, columns: head.columns, rowStart: start, rowEnd: start + rowsOf(head) },
          onChunk: ({ columnName, columnData, rowStart }) => {
            columns.get(columnName)?.set(Float64Array.from(columnData), rowStart - start);
          },
        });
      } catch (error) {
        throw notAsWritten(error);
      }
      return head.sums.map((sums, part) => batchOf(head, columns, part, sums));
    },
  };
}

/** A seal can be put on anything, so what stands in the footer is not relied on either. */
function footerOf(bytes: Buffer): { metadata: FileMetaData; notes: Notes; heads: readonly Head[] } {
  try {
    const metadata = parquetMetadata(bytes);
    const notes = Object.fromEntries((metadata.key_value_metadata ?? []).map(({ key, value = '' }) => [key, value]));
    const heads = z.array(headSchema).parse(JSON.parse(notes[STRETCHES]));
    const rows = rowsIn(heads);
    if (rows > MOST_ROWS || BigInt(rows) !== metadata.num_rows) throw new Error('its rows are not those that it names');
    return { metadata, notes, heads };
  } catch (error) {
    throw notAsWritten(error);
  }
}

function notAsWritten(cause: unknown): Broken {
  return new Broken('it is not as this version of the program writes it', { cause });
}

function countOf({ from, to }: Head): number {
  return to - from + 1;
}

function rowsOf(head: Head): number {
  return countOf(head) * head.sums.length;
}

function rowsIn(heads: readonly Head[]): number {
  return heads.reduce((sum, head) => sum + rowsOf(head), 0);
}

function batchOf(head: Head, columns: ReadonlyMap<string, Float64Array>, part: number, sums: Batch['sums']): Batch {
  const count = countOf(head);
  const own = Array.from(columns, ([name, data]) => [name, data.slice(part * count, (part + 1) * count)] as const);
  return { count, columns: Object.fromEntries(own), sums };
}
