import seedrandom from 'seedrandom';
import type { Purpose } from './purpose.js';
import { threefry4x32, threefryKey } from './threefry.js';

export { PURPOSES, type Purpose } from './purpose.js';

/** A text of bytes in hexadecimal that is a shorter one over and over. */
const REPEATED = /^((?:..)+?)\1+$/u;

/**
 * The text that seedrandom is given. It keeps only the low 8 bits of each character code, which would give 'A' and 'Ł' one stream; in
 * hexadecimal of UTF-8 every text stays itself. Its cipher repeats a key until its state is full, which would give '1', '11' and '111'
 * one stream; a text that repeats a shorter one ends in a mark that is no digit.
 */
function keyText(seed: string): string {
  const bytes = Array.from(new TextEncoder().encode(seed), (byte) => byte.toString(16).padStart(2, '0')).join('');
  return REPEATED.test(bytes) ? `${bytes}.` : bytes;
}

/** All the luck of a study: one seed text, from which every draw of every replication follows. */
export class LuckTable {
  readonly #key: Int32Array;
  readonly #block = new Int32Array(4);

  constructor(seed: string) {
    const words = seedrandom(keyText(seed));
    this.#key = threefryKey(words.int32(), words.int32(), words.int32(), words.int32());
  }

  /**
   * The luck of one replication, the same for all strategies.
   * @param replication whole number from 0, less than 2^32
   * @throws RangeError outside of that
   */
  replication(replication: number): Luck {
    if (replication >>> 0 !== replication)
      throw new RangeError(`replication must be a whole number below 2^32: ${replication}`);
    return new Luck(this.#key, replication, this.#block);
  }
}

/** Draws of one replication. A draw is a function of what it is for, never of the order of asking. */
export class Luck {
  /** The uniform that was drawn last; in an array, as no object is made then of each. */
  readonly drawn = new Float64Array(1);
  readonly #key: Int32Array;
  readonly #replication: number;
  readonly #block: Int32Array;

  constructor(key: Int32Array, replication: number, block = new Int32Array(4)) {
    this.#block = block;
    this.#key = key;
    this.#replication = replication;
  }

  /**
   * The uniform draw for a purpose and its indices, strictly inside (0, 1): an odd multiple of 2^-53, so that u and 1 - u are both exact
   * and 0 and 1 never come. 2^52 values, equally likely.
   * @param a instrument, below 2^8
   * @param b kind of tip or step, below 2^16
   * @param c tip, image or occurrence, below 2^32
   * @param d running count, below 2^32
   * @throws RangeError for an index that does not fit its field, since two draws would then be one
   */
  uniform(purpose: Purpose, a: number, b: number, c: number, d: number): number {
    this.draw(purpose, a, b, c, d);
    return this.drawn[0];
  }

  /** As `uniform`, into `drawn`. */
  draw(purpose: Purpose, a: number, b: number, c: number, d: number): void {
    if ((a & 0xff) !== a || (b & 0xffff) !== b || c >>> 0 !== c || d >>> 0 !== d) {
      throw new RangeError(`index of a draw out of range: purpose ${purpose}, indices ${a}, ${b}, ${c}, ${d}`);
    }
    const block = this.#block;
    threefry4x32(this.#key, purpose | (a << 8) | (b << 16), c, d, this.#replication, block);
    this.drawn[0] = ((block[0] >>> 6) * 0x4000000 + (block[1] >>> 6)) * 2.220446049250313e-16 + 1.1102230246251565e-16;
  }

  /** Draws the uniform that belongs to the last one, from the other half of its block: for a second purpose with the same indices. */
  drawCompanion(): void {
    const block = this.#block;
    this.drawn[0] = ((block[2] >>> 6) * 0x4000000 + (block[3] >>> 6)) * 2.220446049250313e-16 + 1.1102230246251565e-16;
  }
}
