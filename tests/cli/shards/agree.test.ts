import { describe, expect, it } from 'vitest';
import type { ShardAbout } from '../../../src/cli/shards/about.js';
import { inOrder } from '../../../src/cli/shards/agree.js';

const HERE = { name: 'swap-or-hop', version: '1.2.3', commit: 'abc' };
const ABOUT: ShardAbout = {
  ...{ format: 'swap-or-hop shard', formatVersion: 1, tool: HERE, seed: '1', study: 'compare' },
  scenario: { file: 'plan.yaml', sha256: 'f00' },
  options: { replications: '1000' },
  shard: { number: 1, of: 3 },
};

function shard(file: string, number: number, other: Partial<ShardAbout> = {}) {
  return { file, about: { ...ABOUT, shard: { number, of: 3 }, ...other }, scenario: '', segments: [] };
}

const whole = [shard('c', 3), shard('a', 1), shard('b', 2)];

describe('shards of one study', () => {
  it('are put in order', () => {
    expect(inOrder(whole, HERE).map(({ file }) => file)).toEqual(['a', 'b', 'c']);
  });

  it.each([
    ['program', { tool: { ...HERE, version: '1.2.4' } }, 'swap-or-hop 1.2.4 of commit abc, not swap-or-hop 1.2.3'],
    [
      'program',
      { tool: { ...HERE, commit: 'abd' } },
      'swap-or-hop 1.2.3 of commit abd, not swap-or-hop 1.2.3 of commit abc',
    ],
    ['scenario', { scenario: { file: 'plan.yaml', sha256: 'f01' } }, 'plan.yaml with SHA-256 f01, not plan.yaml with'],
    ['seed', { seed: '2' }, '"2", not "1"'],
    ['study', { options: { replications: '999' } }, 'compare --replications 999, not compare --replications 1000'],
    ['study', { study: 'budget' }, 'budget --replications 1000, not compare'],
    ['number of shards', { shard: { number: 2, of: 4 } }, '4, not 3'],
  ] as const)('have the same %s', (what, other, message) => {
    const stranger = shard('stranger', 2, other);
    const merge = () => inOrder([shard('a', 1), stranger, shard('c', 3)], HERE);
    expect(merge).toThrow(`stranger does not go with a: its ${what} is ${message}`);
  });

  it('are merged by the program that made them', () => {
    expect(() => inOrder(whole, { ...HERE, version: '2.0.0' })).toThrow(
      'c was made by swap-or-hop 1.2.3 of commit abc, and this is swap-or-hop 2.0.0 of commit abc',
    );
  });

  it('are all there, and each of them once', () => {
    expect(() => inOrder([shard('c', 3)], HERE)).toThrow('shards 1, 2 of 3 are missing');
    expect(() => inOrder([...whole, shard('d', 2)], HERE)).toThrow('b and d both hold shard 2/3');
    const many = { shard: { number: 50, of: 99 } };
    expect(() => inOrder([shard('a', 50, many)], HERE)).toThrow(/shards 1, 2, .*, 20 and 78 more of 99 are missing/u);
  });
});
