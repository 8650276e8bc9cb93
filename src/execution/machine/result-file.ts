import { createHash } from 'node:crypto';
import { endianness } from 'node:os';
import * as z from 'zod';
import { ACTIVITIES } from '../../campaign/activities.js';
import type { WentBecause } from '../../campaign/ledger.js';
import type { SpoiledBy } from '../../probe/tip.js';
import { type Batch, IMAGE_SUMS, perImageSum } from '../batch.js';
import { strategiesOf } from '../experiment.js';
import { type JobResult, replicationsOf } from '../job.js';
import type { CompletedJob } from '../share.js';
import { jobKey } from './job-key.js';

/** Notes about a file, by their names. */
export type Notes = Readonly<Record<string, string>>;

/** A segment of a job whose result is in a file; `key` is that of the job, see `jobKey`. */
export type StoredSegment = Readonly<Pick<Segment, 'key' | 'from' | 'to'>>;

/** A file that was opened and whose checksum is right. */
export interface ResultFile {
  readonly notes: Notes;
  /** What is in it, before any number is read. */
  readonly segments: readonly StoredSegment[];
  /** Reads the result of one of the segments, by its place in the list. */
  readonly read: (place: number) => JobResult;
}

/** A file that is not what it should be; the message says how. */
export class Broken extends Error {
  override readonly name = 'Broken';
}

/** Numbers have the byte order of the machine, which is the same on all that are usual; a file of another one is not read. */
const START = Buffer.from(`swap-or-hop results 1 ${endianness()}\n`);
const END = Buffer.from('\nend of results\n');
const DIGITS = 64;
const NUMBER = Float64Array.BYTES_PER_ELEMENT;

// Which causes and reasons there are is the program's own matter: a file of another version is not read.
const isText = (value: unknown): boolean => typeof value === 'string';
const spoiledBy = z.custom<SpoiledBy | 'unspoiled'>(isText);
const wentBecause = z.custom<WentBecause>(isText);

const partSchema = z.object({
  strategy: z.string(),
  columns: z.array(z.string()),
  sums: z
    .object({
      images: z.int().min(0),
      spoiledBy: z.array(z.tuple([spoiledBy, z.int()])),
      wentBecause: z.array(z.tuple([wentBecause, z.int()])),
    })
    .nullable(),
});
const segmentSchema = z
  .object({ key: z.string(), from: z.int().min(1), to: z.int().min(1), parts: z.array(partSchema) })
  .refine(({ from, to }) => from <= to);
const headerSchema = z.object({ notes: z.record(z.string(), z.string()), segments: z.array(segmentSchema) });
type Part = z.infer<typeof partSchema>;
type Segment = z.infer<typeof segmentSchema>;

/**
 * A file of results in parts: a line that says what it is; a line of JSON with the notes and, for each segment and each of
 * its strategies, the names of its columns and its counts of tips; then numbers of 64 bits, for each of them column after
 * column and sums after that; the SHA-256 of all that in hexadecimal; and a last line. The same results give the same bytes.
 */
export function* resultFile(notes: Notes, completed: readonly CompletedJob[]): Generator<Uint8Array> {
  const hash = createHash('sha256');
  for (const part of contentOf(notes, completed)) {
    hash.update(part);
    yield part;
  }
  yield Buffer.from(hash.digest('hex'));
  yield END;
}

function* contentOf(notes: Notes, completed: readonly CompletedJob[]): Generator<Uint8Array> {
  const header: z.input<typeof headerSchema> = { notes, segments: completed.map(segmentOf) };
  yield START;
  yield Buffer.from(`${JSON.stringify(header)}\n`);
  for (const { result } of completed)
    for (const { columns, sums } of result) {
      const { images, split } = sums ?? { images: {}, split: {} };
      for (const numbers of [columns, images, split].flatMap((each) => Object.values(each)))
        yield new Uint8Array(numbers.buffer, numbers.byteOffset, numbers.byteLength);
    }
}

function segmentOf({ job, result }: CompletedJob): Segment {
  const strategies = strategiesOf(job.experiment);
  const parts = result.map(({ columns, sums }, part) => ({
    strategy: strategies[part].name,
    columns: Object.keys(columns),
    sums:
      sums === null
        ? null
        : {
            images: sums.images.quality.length,
            spoiledBy: [...sums.spoiledBy],
            wentBecause: [...sums.wentBecause],
          },
  }));
  return { key: jobKey(job), from: job.from, to: job.to, parts };
}

/** @throws Broken where it is no file of results, or not as it was written */
export function openResultFile(bytes: Buffer): ResultFile {
  const end = bytes.length - END.length - DIGITS;
  if (!bytes.subarray(0, START.length).equals(START)) throw new Broken('it does not begin like one of this version');
  if (end < START.length || !bytes.subarray(-END.length).equals(END))
    throw new Broken('it is cut short: its end is missing');
  const content = bytes.subarray(0, end);
  if (bytes.toString('latin1', end, end + DIGITS) !== createHash('sha256').update(content).digest('hex'))
    throw new Broken('it is damaged: its bytes are not those of its checksum');
  const start = content.indexOf('\n', START.length) + 1;
  const { notes, segments } = headerIn(content.toString('utf8', START.length, start));
  const places: number[] = [];
  let next = start;
  for (const segment of segments) {
    places.push(next);
    for (const part of segment.parts) next += NUMBER * numbersIn(part, replicationsOf(segment));
  }
  if (next !== end) throw notAsWritten();
  return { notes, segments, read: (place) => resultAt(content, places[place], segments[place]) };
}

/** A checksum can be put on anything, so what stands in the header is not relied on either. */
function headerIn(text: string): z.infer<typeof headerSchema> {
  try {
    return headerSchema.parse(JSON.parse(text));
  } catch (error) {
    throw notAsWritten(error);
  }
}

function notAsWritten(cause?: unknown): Broken {
  return new Broken('it is not as this version of the program writes it', { cause });
}

function numbersIn({ columns, sums }: Part, count: number): number {
  return count * columns.length + (sums === null ? 0 : IMAGE_SUMS.length * sums.images + 2 * ACTIVITIES.length);
}

function resultAt(content: Buffer, place: number, segment: Segment): JobResult {
  let next = content.byteOffset + place;
  const take = (count: number): Float64Array => {
    const from = next;
    next += NUMBER * count;
    return new Float64Array(content.buffer.slice(from, next));
  };
  const count = replicationsOf(segment);
  return segment.parts.map(({ columns, sums }): Batch => ({
    count,
    columns: Object.fromEntries(columns.map((name) => [name, take(count)])),
    sums:
      sums === null
        ? null
        : {
            images: perImageSum(() => take(sums.images)),
            split: { high: take(ACTIVITIES.length), low: take(ACTIVITIES.length) },
            spoiledBy: new Map(sums.spoiledBy),
            wentBecause: new Map(sums.wentBecause),
          },
  }));
}
