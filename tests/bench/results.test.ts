import { describe, expect, it } from 'vitest';
import type { CompareCost } from './growth.js';
import type { Program } from './plain-case.js';
import { type Results, resultsText } from './results.js';
import type { Spread } from './spread.js';

const about = (median: number): Spread => ({ median, least: 0.9 * median, most: 1.1 * median });
const mean = (value: number) => ({ mean: value, standardError: 0.01, count: 1000 });

function program(name: string, ratio: number | null): Program {
  return {
    name,
    perUser: about(1000),
    perWall: about(990),
    ratio: ratio === null ? null : about(ratio),
    ratioByWall: ratio === null ? null : about(ratio),
    means: { totalTime: mean(28), yield: mean(0.9), tips: mean(20), takes: mean(200), undetectedBadShare: mean(0.01) },
  };
}

const big = (images: number, replications: number, peak: number): CompareCost => ({
  ...{ images, replications, strategies: 1 },
  used: { seconds: { user: 2, wall: 1 }, peak },
});

function results(furthest: number): Results {
  return {
    surroundings: {
      ...{ date: '2031-05-17', commit: 'abc', isChanged: true, machine: 'a machine', system: 'a system' },
      ...{ node: 'v20', load: 0.1, cores: 2 },
    },
    baselines: [],
    lacking: [{ name: 'C++', lacks: 'g++ is not installed' }],
    plain: {
      rounds: 6,
      programs: [program('ours', null), program('SimPy', 30), program('C++', 0.175)],
      furthest: { totalTime: furthest, yield: 1, tips: 1, takes: 1, undetectedBadShare: 1 },
      eventsPerCampaign: 694,
      draws: { perCampaign: 580, share: about(0.31) },
    },
    profile: { parts: [{ name: 'luck', share: 0.25 }], functions: [{ name: '`take`', share: 0.04 }], samples: 21_000 },
    scenarios: [],
    studies: [],
    byPlan: [],
    comparing: [big(1000, 20, 3e8), big(100_000, 10, 9.9e8), big(10, 1_000_000, 1.2e9)],
    threads: {
      ...{ replications: 200_000, few: 20_000, oneThread: about(20), twoThreads: about(11.5) },
      ...{ gain: about(1.74), further: about(1.8), coresOfOne: about(1.1) },
    },
  };
}

/** Cells of the line of a table that begins so. */
const cellsOf = (text: string, head: string) =>
  text
    .split('\n')
    .find((line) => line.startsWith(`| ${head}`))
    ?.split(' | ')
    .map((cell) => cell.replace(/^\| | \|$/g, ''));

describe('the record of a benchmark', () => {
  const text = resultsText(results(3.9));

  it('says of each target whether it is met', () => {
    expect(cellsOf(text, 'ours over SimPy, one')).toEqual([
      'ours over SimPy, one thread',
      'at least 25',
      '× 30.00 (27.00 to 33.00)',
      'met',
    ]);
    expect(cellsOf(text, 'ours over C++, one')?.at(-1)).toBe('**not met**');
    expect(cellsOf(text, 'two threads over one, replications beyond 20 000')?.at(-1)).toBe('met');
    expect(cellsOf(text, 'two threads over one, a whole command of 200 000 replications')?.at(-1)).toBe('**not met**');
    expect(cellsOf(text, 'memory, 100 000 images')?.slice(2)).toEqual(['990 MB', 'met']);
    expect(cellsOf(text, 'memory, 10 images, 1 000 000')?.slice(2)).toEqual(['1200 MB', '**not met**']);
  });

  it('says what part of a campaign luck is, and what the targets would leave for all of it', () => {
    expect(text.replace(/\s+/g, ' ')).toContain(
      'take 0.31 (0.28 to 0.34) of the time that a campaign takes. The targets leave, for the draws and all the rest, ' +
        '1.20 of it (the target beside SimPy), and 0.50 of it (the target beside C++).',
    );
  });

  it('shows where time goes, and what a target that is not met would need', () => {
    expect(cellsOf(text, 'luck')).toEqual(['luck', '0.250']);
    expect(cellsOf(text, '`take`')).toEqual(['`take`', '0.040']);
    expect(text).toContain('everything else would have to be done in 0.28 of its time');
    expect(text).not.toContain('Beside SimPy');
    const { plain, ...rest } = results(1);
    const programs = [program('ours', null), program('SimPy', 5)];
    expect(resultsText({ ...rest, plain: { ...plain, programs } })).toContain(
      'Beside SimPy a campaign may take 0.20 of what it takes; the draws alone take 0.31, so the target would be missed',
    );
  });

  it('says what was not measured, and that there are changes since the commit', () => {
    expect(cellsOf(text, 'C++ | not')).toEqual(['C++', 'not measured: g++ is not installed']);
    expect(cellsOf(text, 'commit')?.at(1)).toBe('abc, and changes since');
  });

  it('says so where programs do not simulate the same thing', () => {
    expect(text).toContain('No difference between them was found');
    expect(resultsText(results(4.1))).toContain('**They do not simulate the same thing**');
  });
});
