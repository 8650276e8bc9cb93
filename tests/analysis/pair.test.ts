import { expect, it } from 'vitest';
import { pairIn } from '../../src/analysis/pair.js';
import { KNOWN_TEXT, loadedFrom } from '../support/known-break-even.js';

const loaded = loadedFrom(KNOWN_TEXT);

it('gives two strategies in the order named, not in that of the scenario', () => {
  expect(pairIn(loaded, ['hop', 'swap']).map(({ name }) => name)).toEqual(['hop', 'swap']);
  expect(pairIn(loaded, ['swap', 'hop']).map(({ name }) => name)).toEqual(['swap', 'hop']);
});

it('refuses a name that is no strategy’s', () => {
  expect(() => pairIn(loaded, ['swap', 'skip'])).toThrow(RangeError);
});
