import { durationAt } from '../../src/chance/duration.js';
import { exponentialScore, normalScore } from '../../src/chance/scores.js';
import { ln } from '../../src/chance/elementary.js';
import { compileLife, type Life } from '../../src/chance/life.js';
import { type Luck, LuckTable, PURPOSES } from '../../src/chance/luck.js';
import { lognormalAt } from '../../src/chance/normal.js';

/** Every distribution of life, with the exposure unit left open. */
export const EVERY_LIFE: readonly Life[] = [
  { distribution: 'exponential', mean: 40 },
  { distribution: 'weibull', shape: 2.2, scale: 60 },
  { distribution: 'lognormal', median: 30, geometricSd: 2.5 },
  { distribution: 'gamma', shape: 0.7, scale: 50 },
  { distribution: 'gamma', shape: 4, scale: 25 },
  { distribution: 'bathtub', early: { shape: 0.5, scale: 4000 }, late: { shape: 4, scale: 150 } },
  { distribution: 'probability', perUnit: 0.02 },
];

/** Folds the 64 bits of numbers into a hash (FNV-1a over 32-bit words, from memory): plain arithmetic, so it runs in a browser too. */
export class BitDigest {
  // The lower word first, whatever order the machine keeps them in.
  readonly #bits = new DataView(new ArrayBuffer(8));
  #hash = 0x811c9dc5;

  add(value: number): void {
    this.#bits.setFloat64(0, value, true);
    for (const place of [0, 4]) this.#hash = Math.imul(this.#hash ^ this.#bits.getUint32(place, true), 0x01000193);
  }

  toString(): string {
    return (this.#hash >>> 0).toString(16).padStart(8, '0');
  }
}

function addVariates(digest: BitDigest, luck: Luck, rounds: number): void {
  const distributions = EVERY_LIFE.map(compileLife);
  for (let d = 0; d < rounds; d += 1) {
    const u = luck.uniform(PURPOSES.life, 0, 0, 0, d);
    const hazard = -ln(u);
    for (const distribution of distributions) {
      const exposure = distribution.exposureAt(hazard);
      digest.add(exposure);
      digest.add(distribution.cumulativeHazard(exposure));
    }
    digest.add(lognormalAt(8, 1.3, u));
    digest.add(normalScore(u));
    digest.add(exponentialScore(u));
    digest.add(durationAt({ distribution: 'lognormal', median: 600, p90: 1200 }, u));
    digest.add(durationAt({ distribution: 'triangular', min: 10, mode: 20, max: 60 }, u));
  }
}

/** Hash of the bits of many draws, lives and durations: the same on every engine, or results from one seed would differ between them. */
export function luckDigest(draws: number, rounds: number): string {
  const digest = new BitDigest();
  const luck = new LuckTable('digest').replication(7);
  for (let d = 0; d < draws; d += 1) digest.add(luck.uniform(PURPOSES.review, 1, 2, d >>> 8, d));
  addVariates(digest, luck, rounds);
  return digest.toString();
}
