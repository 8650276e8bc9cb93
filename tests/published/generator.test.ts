import { describe, expect, it } from 'vitest';
import { threefry4x32, threefryKey } from '../../src/chance/threefry.js';

// Known-answer tests of Threefry4x32-20 (tests/kat_vectors of Random123, the reference implementation of Salmon, Moraes, Dror and Shaw,
// "Parallel random numbers: as easy as 1, 2, 3", SC'11, 2011), seen alike in several public test suites that cite it.
// counter, key, output; the third pair is the hexadecimal digits of pi.
const KNOWN_ANSWERS = [
  ['00000000 00000000 00000000 00000000', '00000000 00000000 00000000 00000000', '9c6ca96a e17eae66 fc10ecd4 5256a7d8'],
  ['ffffffff ffffffff ffffffff ffffffff', 'ffffffff ffffffff ffffffff ffffffff', '2a881696 57012287 f6c7446e a16a6732'],
  ['243f6a88 85a308d3 13198a2e 03707344', 'a4093822 299f31d0 082efa98 ec4e6c89', '59cd1dbb b8879579 86b5d00c ac8b6d84'],
] as const;

const words = (text: string) => text.split(' ').map((word) => Number.parseInt(word, 16));

describe('the counter-based generator', () => {
  it.each(KNOWN_ANSWERS)('encrypts %s under %s to the published words', (counter, key, output) => {
    const [k0, k1, k2, k3] = words(key);
    const [c0, c1, c2, c3] = words(counter);
    const block = new Int32Array(4);
    threefry4x32(threefryKey(k0, k1, k2, k3), c0, c1, c2, c3, block);
    expect(Array.from(block, (word) => word >>> 0)).toEqual(words(output));
  });
});
