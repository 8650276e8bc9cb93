import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { Failure } from '../../src/cli/failure.js';
import { type Kept, openKept } from '../../src/cli/kept/kept-file.js';
import { Broken, seal } from '../../src/cli/kept/seal.js';
import { type ShardAbout, SHARD_FORMAT } from '../../src/cli/shards/about.js';
import { inOrder } from '../../src/cli/shards/agree.js';
import { openShard, shardBytes } from '../../src/cli/shards/open.js';
import { sha256Of } from '../../src/cli/text-file.js';
import { carryOut } from '../../src/study/work/carry-out.js';
import type { Order } from '../../src/study/work/order.js';
import { KNOWN_TEXT, loadedFrom } from '../support/known-break-even.js';
import type { Target } from './target.js';

const SEED = 'shards';
const tool = { name: 'swap-or-hop', version: '0.1.0', commit: null };
const { strategies } = loadedFrom(KNOWN_TEXT);

/** Both shards of a small study. */
const WHOLE: readonly Buffer[] = [1, 2].map((number) => {
  const [from, to] = number === 1 ? [1, 4] : [5, 8];
  const order: Order = { play: { kind: 'strategies', strategies }, seed: SEED, from, to, wants: { sums: true } };
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
  return Buffer.from(shardBytes(about, KNOWN_TEXT, [{ order, answer: carryOut(order) }]));
});

/** Something done to the bytes of a shard. */
type Edit = (bytes: Buffer) => Buffer;

const share = fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true });
const at = (place: number, bytes: Buffer) => Math.floor(place * bytes.length);
/** Most of a file is numbers; its end says what they are, and its sizes. */
const place = fc.oneof(
  share,
  share.map((part) => 1 - part * 0.2),
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

function resealed(bytes: Buffer): Buffer {
  const sealed = Buffer.from(bytes);
  try {
    seal(sealed);
  } catch {
    // There is no place for one.
  }
  return sealed;
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
    bytes: isMarked ? Buffer.concat([Buffer.from('PAR1'), bytes, Buffer.from('PAR1')]) : Buffer.from(bytes),
    isSealed: false,
  }));

/** Opens it as `merge` does, beside the other shards; gives what became of it. */
function merged(bytes: Buffer): string {
  const folder = mkdtempSync(join(tmpdir(), 'swap-or-hop-fuzz-'));
  try {
    const files = ['spoiled.parquet', 'first.parquet', 'second.parquet'].map((name) => join(folder, name));
    for (const [i, each] of [bytes, ...WHOLE].entries()) writeFileSync(files[i], each);
    try {
      inOrder(files.map(openShard), tool);
    } catch (error) {
      if (!(error instanceof Failure) || !error.message.includes('spoiled.parquet')) throw error;
      return 'refused';
    }
    throw new Error('three shards were taken for two');
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Reads all numbers of a file that a seal was put on. */
async function read(bytes: Buffer): Promise<string> {
  try {
    const file = openKept(bytes);
    for (const [place, head] of file.stretches.entries()) {
      const answer: readonly Kept['answer'][number][] = await file.read(place);
      const wrong = answer.filter(({ count }) => count !== head.to - head.from + 1);
      if (wrong.length > 0) throw new Error('it gives other replications than it names');
    }
    return 'read';
  } catch (error) {
    if (error instanceof Broken) return 'refused';
    throw error;
  }
}

const isWhole = (bytes: Buffer) => WHOLE.some((whole) => whole.equals(bytes));

const shardFile: Target<Spoiled> = {
  promise: 'a shard with anything flipped, cut, doubled or put in, or any bytes at all, is refused by its name',
  cases: fc.oneof({ arbitrary: spoiled, weight: 5 }, { arbitrary: noise, weight: 1 }),
  check: async ({ bytes, isSealed }) => {
    const became = merged(bytes);
    if (isWhole(bytes)) return 'whole after all';
    return isSealed ? `sealed anew and ${await read(bytes)}` : became;
  },
};

export const SHARD_TARGETS = { 'shard file': shardFile };
