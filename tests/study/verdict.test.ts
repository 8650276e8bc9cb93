import { describe, expect, it } from 'vitest';
import type { Difference, Turn } from '../../src/study/results.js';
import { type Found, verdictOf } from '../../src/study/verdict.js';
import { sampleComparison } from '../support/sample-summary.js';
import { withUnknown } from '../support/sample-unknown.js';

const HOUR = 3600;
const { summary } = sampleComparison({ strategies: 2, images: 48, bookings: true });
const [first, second] = summary.strategies;

/** A difference of the second strategy, told apart where its interval leaves zero out. */
function difference(measure: Difference['measure'], low: number, high: number): Difference {
  return {
    strategy: second.name,
    measure,
    estimate: { value: (low + high) / 2, low, high },
    relativePrecision: 0.01,
    verdict: low > 0 ? 'more' : high < 0 ? 'less' : 'not told apart',
  };
}

const LESS_TIME = difference('time', -2 * HOUR, -HOUR);
const MORE_TIME = difference('time', HOUR, 2 * HOUR);
const SAME_TIME = difference('time', -HOUR, HOUR);
const SAME_YIELD = difference('yield', -0.01, 0.01);
const LESS_YIELD = difference('yield', -0.02, -0.01);
const SAME_SILENT = difference('silentBadShare', -0.01, 0.01);

const LESS_OPERATOR = difference('operatorTime', -2 * HOUR, -HOUR);
const MORE_OPERATOR = difference('operatorTime', HOUR, 2 * HOUR);
const FEWER_COMPLETE = difference('withinAllocation', -0.4, -0.35);

function turn(at: string, isReversed: boolean, measure: Turn['measure'] = 'time'): Turn {
  const differenceThere = { value: HOUR, low: isReversed ? HOUR / 2 : -HOUR, high: 3 * HOUR };
  const { path } = summary.register[4];
  return { path, strategy: second.name, measure, at, differenceHere: -HOUR, differenceThere, isReversed };
}

function verdict(differences: readonly Difference[], turns: readonly Turn[] = [], changes: Partial<Found> = {}) {
  const register = summary.register.map((entry, i) => ({ ...entry, turns: i === 4 ? turns : null }));
  const found: Found = {
    ...summary,
    currency: 'EUR',
    freeHaste: [],
    strategies: [first, second],
    differences,
    register,
    ...changes,
  };
  return verdictOf(found);
}

function said(...parts: Parameters<typeof verdict>): string {
  return verdict(...parts).sentences.join(' ');
}

describe('what a verdict says at a glance', () => {
  const [own, other] = [second.name, first.name];

  it('is every clear difference in time and data quality, the first with its interval', () => {
    expect(verdict([LESS_TIME, MORE_OPERATOR, LESS_YIELD, SAME_SILENT]).glance).toEqual([
      `Against “${other}”: “${own}” 1.5 h less instrument time (1.0 to 2.0), 1.5 h more operator time and 1.5 percentage points less yield.`,
    ]);
    expect(verdict([SAME_TIME, SAME_YIELD]).glance).toEqual([
      `Against “${other}”: “${own}” no clear difference in time or data quality.`,
    ]);
  });

  it('is who completes how often, and no time, where that differs clearly', () => {
    const strategies: Found['strategies'] = [
      { ...first, withinAllocation: { value: 0.7, low: 0.684, high: 0.716 } },
      { ...second, withinAllocation: { value: 0.801, low: 0.787, high: 0.815 } },
    ];
    const differences = [difference('withinAllocation', 0.08, 0.12), LESS_TIME];
    expect(verdict(differences, [], { strategies, allocation: { text: '1 session', end: 1 } }).glance).toEqual([
      `Complete within 1 session: “${other}” 70 % of campaigns (68.4 to 71.6), “${own}” 80.1 % (78.7 to 81.5).`,
    ]);
  });

  it('says before all else that nothing makes haste worse, where a strategy hurries', () => {
    const free = 'Nothing in the scenario makes the faster scan worse.';
    expect(verdict([LESS_TIME], [turn('8 h', true)], { freeHaste: [free] }).glance[0]).toBe(free);
  });

  it('begins with what it rests on where an unmeasured value reverses or weakens it, by name, never by path', () => {
    const turned = verdict([LESS_TIME], [turn('8 h', true)]);
    expect(turned.glance[0]).toBe(`Inconclusive: rests on “${summary.register[4].description}”.`);
    expect(turned.decided).toBe(false);
    expect(verdict([LESS_TIME], [turn('8 h', true, 'tips')]).glance[0]).not.toContain('Inconclusive');
  });
});

describe('what a verdict says', () => {
  it('ranks by every measure in which there is a clear difference, and names those in which there is none', () => {
    const [own, other] = [second.name, first.name];
    expect(said([LESS_TIME, MORE_OPERATOR, SAME_YIELD, SAME_SILENT])).toContain(
      `“${own}” is better than “${other}” in instrument time, worse in operator time: 1.5 h less instrument time (joint 95 % interval 1.0 to 2.0), 1.5 h more operator time (1.0 to 2.0); no clear difference in yield and undetected bad share.`,
    );
    expect(said([SAME_TIME, LESS_OPERATOR, LESS_YIELD, SAME_SILENT])).toContain(
      `“${own}” is better than “${other}” in operator time, worse in yield: 1.5 h less operator time`,
    );
    expect(said([MORE_TIME, LESS_YIELD, SAME_SILENT])).toContain(
      `“${own}” is worse than “${other}” in instrument time and yield: `,
    );
    expect(said([SAME_TIME, SAME_YIELD, SAME_SILENT])).toContain(
      `Between “${own}” and “${other}” there is no clear difference in time or data quality: no clear difference in instrument time`,
    );
  });

  it('makes a clear difference in completion the headline, and ranks no time then', () => {
    const { share, ...ends } = { share: 0.62, low: 0.6, high: 0.64 };
    const strategies = [first, { ...second, withinAllocation: { value: share, ...ends } }];
    const differences = [FEWER_COMPLETE, LESS_TIME, LESS_OPERATOR, LESS_YIELD, SAME_SILENT];
    const sentences = said(differences, [], { strategies });
    expect(sentences).toContain(
      `“${second.name}” completes within 4 sessions less often than “${first.name}”, in 62 % of campaigns (95 % interval 60 to 64) against `,
    );
    expect(sentences).toContain(
      'so no time is ranked: 1.5 percentage points less yield (joint 95 % interval 1.0 to 2.0); no clear difference in undetected bad share.',
    );
    expect(sentences).not.toMatch(/better|less (?:instrument|operator) time/u);
    const never = difference('finishes', 0.1, 0.2);
    expect(said([never, LESS_TIME, SAME_YIELD])).toContain(
      `“${second.name}” completes the plan more often than “${first.name}”, in `,
    );
  });

  it('is open where completion reverses, not where a time does that it does not rank', () => {
    const verdictWith = (measure: Turn['measure']) => {
      const register = summary.register.map((entry, i) => ({
        ...entry,
        turns: i === 4 ? [turn('8 h', true, measure)] : null,
      }));
      const differences = [FEWER_COMPLETE, LESS_TIME, SAME_YIELD, SAME_SILENT];
      return verdictOf({
        ...summary,
        currency: 'EUR',
        freeHaste: [],
        strategies: [first, second],
        differences,
        register,
      });
    };
    expect(verdictWith('withinAllocation')).toMatchObject({ decided: false });
    const { decided, sentences } = verdictWith('time');
    expect(decided).toBe(true);
    expect(sentences.at(-1)).toMatch(/^Secondary: the difference of .* in instrument time reverses if/u);
  });

  it('says how rare an event may be that no campaign met, where all were alike in time', () => {
    const none = difference('time', 0, 0);
    // 1 - 0.025^(1/200): the upper end of Clopper and Pearson where an event never came.
    expect(said([none, SAME_YIELD, SAME_SILENT], [], { replications: 200 })).toContain(
      'In none of 200 campaigns did the two differ in time; what parts them in fewer than 1.8 % of campaigns may not have been met.',
    );
    expect(said([SAME_TIME, SAME_YIELD, SAME_SILENT])).not.toContain('In none of');
  });

  it('says that a sign is kept only of differences that have one', () => {
    expect(said([LESS_TIME, SAME_YIELD, SAME_SILENT])).toMatch(
      /^Every clear difference keeps its sign and stays clear at both range limits/u,
    );
    expect(said([SAME_TIME, SAME_YIELD, SAME_SILENT])).toMatch(/^No clear difference in completion, time or data/u);
  });

  it('says first that haste is free, where it is, and then whether it stands', () => {
    const freeHaste = ['Nothing in “hurry” makes quicker hands worse, so haste looks better here than it is.'];
    expect(said([LESS_TIME], [turn('8 h', true)], { freeHaste })).toMatch(/^Nothing in “hurry” .* Inconclusive: /u);
  });

  it('tells what reverses a difference from what only weakens it, each measure for itself', () => {
    const told = [LESS_TIME, LESS_YIELD, SAME_SILENT];
    expect(said(told, [turn('7 images', false)])).toMatch(
      /^Inconclusive: the difference of .* in instrument time weakens if .* is 7 images\./u,
    );
    const both = said(told, [turn('7 images', false), turn('28 images', true), turn('7 images', false, 'yield')]);
    expect(both).toMatch(
      /in instrument time reverses if .* is 28 images \(and at 1 other range limit\); in yield weakens if .* is 7 images\./u,
    );
  });

  it('says where preparation is counted, and that it is paid back only where it is part of instrument time', () => {
    const split = { ...first.split, 'preparing and setting up': first.split['preparing and setting up'] + 90 * HOUR };
    const hopping = (preparesOnBench: boolean) => ({
      strategies: [
        { ...first, workflow: 'swap' as const },
        { ...second, workflow: 'hop' as const, split, preparesOnBench },
      ],
    });
    const told = [MORE_TIME, SAME_YIELD, SAME_SILENT];
    expect(said(told, [], hopping(false))).toContain(
      `Preparation of “${second.name}” is counted at the instrument, in instrument time too; preparing and setting up takes`,
    );
    expect(said(told, [], hopping(false))).toContain('preparation costs more time than the changes it saves');
    expect(said(told, [], hopping(true))).toContain(
      `Preparation of “${second.name}” is counted at the bench, in operator time and cost, not in instrument time; `,
    );
    const alike = {
      strategies: [first, { ...second, workflow: first.workflow, preparesOnBench: first.preparesOnBench }],
    };
    expect(said(told, [], alike)).not.toContain('reparation');
  });
});

describe('an interval in a verdict', () => {
  it('never reads as reaching zero where it leaves zero out', () => {
    expect(said([LESS_TIME, difference('yield', 0.0002, 0.0122), SAME_SILENT])).toContain(
      '0.62 percentage points more yield (0.02 to 1.22)',
    );
  });

  describe('of what is not known', () => {
    const { notKnowing } = withUnknown(sampleComparison({ strategies: 2, images: 48, bookings: true })).summary;
    const told = [LESS_TIME, SAME_YIELD, SAME_SILENT];
    const turning = (measures: readonly string[]): Partial<Found> => ({
      notKnowing:
        notKnowing === null
          ? null
          : {
              ...notKnowing,
              differences: notKnowing.differences.map((each) => ({ ...each, turns: measures.includes(each.measure) })),
            },
    });

    it('holds where no difference can have the other sign', () => {
      expect(said(told, [], turning([]))).toContain(
        'Every clear difference in time and data quality keeps its sign over the middle 95 % of what is not known of 3 inputs, drawn together 200 times.',
      );
    });

    it('never stands where the sign of a difference that ranks is open, and says by what', () => {
      for (const measure of ['time', 'operatorTime', 'yield', 'silentBadShare']) {
        const sentences = said(told, [], turning([measure]));
        expect(sentences).toMatch(
          /^Inconclusive: the difference in (?:(?:instrument|operator) time|yield|undetected bad share) of/u,
        );
        expect(sentences).toContain('7 % of draws; “sharp, breakage: life” alone leaves a span as wide.');
        expect(sentences).not.toContain('keeps its sign');
      }
      expect(said(told, [turn('8 h', true)], turning(['time']))).toContain('Likewise, the difference of');
    });

    it('says after the verdict what is open in tips or cost alone', () => {
      const sentences = said(told, [], turning(['tips']));
      expect(sentences).toMatch(/^Every clear difference in completion, time and data quality/u);
      expect(sentences).toContain('Secondary: the difference in tips of');
    });
  });
});
