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

function turn(at: string, isReversed: boolean): Turn {
  const differenceThere = { value: HOUR, low: isReversed ? HOUR / 2 : -HOUR, high: 3 * HOUR };
  const { path } = summary.register[4];
  return { path, strategy: second.name, measure: 'time', at, differenceHere: -HOUR, differenceThere, isReversed };
}

function said(differences: readonly Difference[], turns: readonly Turn[] = [], changes: Partial<Found> = {}): string {
  const register = summary.register.map((entry, i) => ({ ...entry, turns: i === 4 ? turns : null }));
  const found: Found = { ...summary, currency: 'EUR', strategies: [first, second], differences, register, ...changes };
  return verdictOf(found).sentences.join(' ');
}

describe('what a verdict says', () => {
  it('claims a better yield or time only where it is told apart', () => {
    const sentences = said([LESS_TIME, SAME_YIELD, SAME_SILENT]);
    expect(sentences).toContain(`“${second.name}” is the better in time; in data quality the two are not told apart.`);
    expect(said([SAME_TIME, LESS_YIELD, SAME_SILENT])).toContain(
      `“${first.name}” is the better in data quality; in time the two are not told apart.`,
    );
    expect(said([MORE_TIME, LESS_YIELD, SAME_SILENT])).toContain(
      `“${first.name}” is the better in time and data quality.`,
    );
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
      /^Every difference in time and yield that is told apart/u,
    );
    expect(said([SAME_TIME, SAME_YIELD, SAME_SILENT])).toMatch(/^No difference in time or yield is told apart/u);
  });

  it('tells what reverses a difference from what only hides it', () => {
    const told = [LESS_TIME, SAME_YIELD, SAME_SILENT];
    expect(said(told, [turn('7 images', false)])).toMatch(
      /^Not decided by what is known: .* is no longer told apart if/u,
    );
    const both = said(told, [turn('7 images', false), turn('28 images', true)]);
    expect(both).toMatch(/turns if .* is 28 images \(and at 1 other end of ranges/u);
    expect(both).not.toContain('7 images,');
  });

  it('explains instrument time by preparation only where preparing is part of it', () => {
    const split = { ...first.split, 'preparing and setting up': first.split['preparing and setting up'] + 90 * HOUR };
    const hopping = (preparesOnBench: boolean) => ({
      strategies: [
        { ...first, workflow: 'swap' as const },
        { ...second, workflow: 'hop' as const, split, preparesOnBench },
      ],
    });
    const told = [MORE_TIME, SAME_YIELD, SAME_SILENT];
    expect(said(told, [], hopping(false))).toContain('because preparation costs more than the swaps it saves');
    expect(said(told, [], hopping(true))).toContain('left out of instrument time');
    expect(said(told, [], hopping(true))).not.toContain('because preparation');
  });
});

describe('an interval in a verdict', () => {
  it('never reads as reaching zero where it leaves zero out', () => {
    expect(said([LESS_TIME, difference('yield', 0.0002, 0.0122), SAME_SILENT])).toContain(
      '0.62 percentage points (0.02 to 1.22) more yield',
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
        'Every difference in time and yield that is told apart keeps its sign over the middle 95 % of what is not known of 3 inputs, drawn together 200 times.',
      );
    });

    it('never stands where the sign of a difference in time or yield is open, and says by what', () => {
      for (const measure of ['time', 'yield']) {
        const sentences = said(told, [], turning([measure]));
        expect(sentences).toMatch(/^Not decided by what is known: the difference in (?:instrument time|yield) of/u);
        expect(sentences).toContain('7 % of draws; “sharp, breakage: life” alone leaves a span as wide.');
        expect(sentences).not.toContain('keeps its sign');
      }
      expect(said(told, [turn('8 h', true)], turning(['time']))).toContain(
        'Likewise, the difference in instrument time',
      );
    });

    it('says after the verdict what is open in tips or cost alone', () => {
      const sentences = said(told, [], turning(['tips']));
      expect(sentences).toMatch(/^Every difference in time and yield/u);
      expect(sentences).toContain('Less weighty, but open too: the difference in tips of');
    });
  });
});
