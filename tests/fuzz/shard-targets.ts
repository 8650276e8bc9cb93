import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { z } from 'zod';
import { Failure } from '../../src/scenario/failure.js';
import { Broken, openResultFile } from '../../src/execution/machine/result-file.js';
import { type ShardAbout, SHARD_FORMAT } from '../../src/cli/shards/about.js';
import { inOrder } from '../../src/cli/shards/agree.js';
import { openShard, shardFile } from '../../src/cli/shards/open.js';
import { sha256Of } from '../../src/cli/text-file.js';
import { runJob } from '../../src/execution/in-process.js';
import type { Job } from '../../src/execution/job.js';
import { KNOWN_TEXT, loadedFrom } from '../support/known-break-even.js';
import type { Form } from './corpus.js';
import type { Target } from './target.js';

const SEED = 'shards';
const tool = { name: 'swap-or-hop', version: '0.1.0', commit: null };
const { strategies } = loadedFrom(KNOWN_TEXT);

/** Both shards of a small study. */
const WHOLE: readonly Buffer[] = [1, 2].map((number) => {
  const [from, to] = number === 1 ? [1, 4] : [5, 8];
  const job: Job = { experiment: { kind: 'strategies', strategies }, seed: SEED, from, to, wants: { sums: true } };
  const about: ShardAbout = {
    format: SHARD_FORMAT,
    formatVersion: 1,
    tool,
    scenario: { file: 'mine.yaml', sha256: sha256Of(KNOWN_TEXT) },
    seed: SEED,
    study: 'compare',
    options: {},
    shard: { number, of: 2 },
  };
  return Buffer.concat([...shardFile(about, KNOWN_TEXT, [{ job, result: runJob(job) }])]);
});

/** Something done to the bytes of a shard. */
type Edit = (bytes: Buffer) => Buffer;

const share = fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true });
const at = (place: number, bytes: Buffer) => Math.floor(place * bytes.length);
/** Most of a file is numbers; its beginning says what they are, and its sizes. */
const place = fc.oneof(
  share,
  share.map((part) => part * 0.2),
  share.map((part) => 1 - part * 0.02),
);

const edit: fc.Arbitrary<Edit> = fc.oneof(
  fc.tuple(place, fc.nat(7)).map(([where, bit]): Edit => {
    return (bytes) => {
      const spoiled = Buffer.from(bytes);
      if (bytes.length > 0) spoiled[at(where, bytes)] ^= 1 << bit;
      return spoiled;
    };
  }),
  fc.tuple(place, fc.oneof(fc.nat(8), fc.nat(4000))).map(([where, length]): Edit => {
    return (bytes) => Buffer.concat([bytes.subarray(0, at(where, bytes)), bytes.subarray(at(where, bytes) + length)]);
  }),
  fc.tuple(place, fc.uint8Array({ maxLength: 12 })).map(([where, put]): Edit => {
    return (bytes) => Buffer.concat([bytes.subarray(0, at(where, bytes)), put, bytes.subarray(at(where, bytes))]);
  }),
  fc.tuple(place, share, fc.nat(300), fc.nat(1)).map(([where, from, length, other]): Edit => {
    return (bytes) => {
      const source = WHOLE[other];
      const piece = source.subarray(at(from, source), at(from, source) + length);
      const rest = bytes.subarray(at(where, bytes) + piece.length);
      return Buffer.concat([bytes.subarray(0, at(where, bytes)), piece, rest]);
    };
  }),
  fc.tuple(share, fc.nat(1)).map(([where, other]): Edit => {
    return (bytes) => Buffer.concat([bytes.subarray(0, at(where, bytes)), WHOLE[other].subarray(at(where, bytes))]);
  }),
);

interface Spoiled {
  readonly bytes: Buffer;
  /** Its checksum was made anew, as by somebody who wants to be believed. */
  readonly isSealed: boolean;
}

/** The checksum, 64 digits, stands before the last line of a file. */
function resealed(bytes: Buffer): Buffer {
  const end = bytes.lastIndexOf('\nend of results\n') - 64;
  if (end < 0) return bytes;
  const content = bytes.subarray(0, end);
  return Buffer.concat([content, Buffer.from(sha256Of(content)), bytes.subarray(end + 64)]);
}

const spoiled: fc.Arbitrary<Spoiled> = fc
  .tuple(fc.constantFrom(...WHOLE), fc.array(edit, { minLength: 1, maxLength: 4 }), fc.boolean())
  .map(([whole, edits, isSealed]) => {
    const bytes = edits.reduce((before, change) => change(before), whole);
    return { bytes: isSealed ? resealed(bytes) : bytes, isSealed };
  });
const noise: fc.Arbitrary<Spoiled> = fc
  .tuple(fc.uint8Array({ maxLength: 400 }), fc.boolean())
  .map(([bytes, isMarked]) => ({
    bytes: isMarked ? Buffer.concat([WHOLE[0].subarray(0, 40), bytes, WHOLE[0].subarray(-80)]) : Buffer.from(bytes),
    isSealed: false,
  }));

/** Opens it as `merge` does, beside the other shards; gives what became of it. */
function merged(bytes: Buffer): string {
  const folder = mkdtempSync(join(tmpdir(), 'swap-or-hop-fuzz-'));
  try {
    const files = ['spoiled.shard', 'first.shard', 'second.shard'].map((name) => join(folder, name));
    for (const [i, each] of [bytes, ...WHOLE].entries()) writeFileSync(files[i], each);
    try {
      inOrder(files.map(openShard), tool);
    } catch (error) {
      if (!(error instanceof Failure) || !error.message.includes('spoiled.shard')) throw error;
      return 'refused';
    }
    throw new Error('three shards were taken for two');
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Reads all numbers of a file whose checksum was made anew. */
function read(bytes: Buffer): string {
  try {
    const file = openResultFile(bytes);
    for (const [place, { from, to }] of file.segments.entries())
      if (file.read(place).some(({ count }) => count !== to - from + 1))
        throw new Error('it gives other replications than it names');
    return 'read';
  } catch (error) {
    if (error instanceof Broken) return 'refused';
    throw error;
  }
}

const isWhole = (bytes: Buffer) => WHOLE.some((whole) => whole.equals(bytes));

const FORM: Form<Spoiled> = {
  read: (kept) => {
    const { bytes, isSealed } = z.object({ bytes: z.base64(), isSealed: z.boolean() }).parse(kept);
    return { bytes: Buffer.from(bytes, 'base64'), isSealed };
  },
  write: ({ bytes, isSealed }) => ({ bytes: bytes.toString('base64'), isSealed }),
};

const spoiledShard: Target<Spoiled> = {
  promise: 'a shard with anything flipped, cut, doubled or put in, or any bytes at all, is refused by its name',
  cases: fc.oneof({ arbitrary: spoiled, weight: 5 }, { arbitrary: noise, weight: 1 }),
  form: FORM,
  check: ({ bytes, isSealed }) => {
    const became = merged(bytes);
    if (isWhole(bytes)) return 'whole after all';
    return isSealed ? `sealed anew and ${read(bytes)}` : became;
  },
};

export const SHARD_TARGETS = { 'shard file': spoiledShard };
