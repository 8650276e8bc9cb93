import { expect, it } from 'vitest';
import { type CpuProfile, profileOf } from './profile.js';

const node = (
  id: number,
  functionName: string,
  file: string,
  children: number[] = [],
): CpuProfile['nodes'][number] => ({
  id,
  callFrame: { functionName, url: file === '' ? '' : `file:///somewhere/${file}` },
  children,
});

it('a profile shares campaigns out by part and by function, without what is done before them', () => {
  const nodes = [
    node(1, '(root)', '', [2, 7]),
    node(2, 'slices', 'bench/ours.js', [3]),
    node(3, 'run', 'dist/campaign/campaign.js', [4, 5]),
    node(4, 'threefry4x32', 'dist/chance/threefry.js'),
    node(5, 'take', 'dist/campaign/measuring.js', [6]),
    node(6, 'ln', 'node_modules/@stdlib/ln/main.js'),
    node(7, '(garbage collector)', ''),
  ];
  const { parts, functions, samples } = profileOf({ nodes, samples: [1, 2, 2, 3, 4, 5, 5, 5, 6, 7, 7] });
  expect(samples).toBe(8);
  expect(parts).toEqual([
    { name: 'the procedure, step by step', share: 0.5 },
    { name: 'memory: clearing up', share: 0.25 },
    { name: 'luck: the generator', share: 0.125 },
    { name: 'luck: times and lives made of it', share: 0.125 },
  ]);
  expect(functions[0]).toEqual({ name: '`take` in campaign/measuring.js', share: 0.375 });
});
