import { measureOf } from '../../../src/analysis/differences.js';
import { describe, expect, it } from 'vitest';
import type { LoadedScenario } from '../../../src/scenario/load.js';
import { bonferroni, pairedInterval } from '../../../src/statistics/interval.js';
import { compare, type CompareOptions } from '../../../src/studies/compare/compare.js';
import { COMPARED, HEADLINE } from '../../../src/analysis/compared-measures.js';
import type { Measure } from '../../../src/execution/measures.js';
import type { ComparisonResult } from '../../../src/analysis/results.js';
import { traceReplication } from '../../../src/analysis/trace.js';
import type { Raw } from '../../support/run.js';
import { kind, laidOver, pass, SCENE } from '../../support/scene.js';
import { nonEmpty } from '../../support/non-empty.js';
import { loadedOf } from '../../support/run.js';

const BREAKAGE: Raw = { cause: 'breakage', per: 'image', life: { distribution: 'probability', perUnit: 0.2 } };
const SWAP: Raw = { name: 'by hand', workflow: 'swap' };
const HOP: Raw = { name: 'hopping', workflow: 'hop' };
const CAREFUL: Raw = { name: 'careful', workflow: 'swap', rules: { after: '2 images' } };

function loaded(over: Raw): LoadedScenario {
  const base = laidOver(SCENE, {
    plan: { regions: 2, passes: [pass('a', 10), pass('b', 10)] },
    tips: { sharp: kind(BREAKAGE) },
    strategies: [SWAP, HOP],
  });
  return loadedOf(laidOver(base, over));
}

const options = (more: Partial<CompareOptions> = {}): CompareOptions => ({
  file: 'scene.yaml',
  sha256: 'none',
  toolVersion: '0',
  ...more,
});
/** Without the register, whose ends of ranges cost most of the time of a comparison. */
const run = (over: Raw, more: Partial<CompareOptions> = {}) =>
  rowsRead(compare({ ...loaded(over), register: [] }, options(more)));
const runWhole = (over: Raw, more: Partial<CompareOptions> = {}) => rowsRead(compare(loaded(over), options(more)));

function rowsRead({ summary, replications }: ComparisonResult) {
  return { summary, replications: [...replications] };
}

describe('how many replications are run', () => {
  it('exactly as many as asked for, numbered from 1, a row for each strategy', () => {
    const { summary, replications } = run({}, { replications: 7 });
    expect(summary).toMatchObject({ replications: 7, stopping: { rule: 'fixed' } });
    expect(replications.map(({ replication, strategy }) => `${replication} ${strategy}`)).toEqual(
      [1, 2, 3, 4, 5, 6, 7].flatMap((number) => [`${number} by hand`, `${number} hopping`]),
    );
  });

  it('200 where nothing varies, since zero variance counts as known', () => {
    const { summary } = run({ tips: { sharp: kind() } });
    expect(summary).toMatchObject({ replications: 200, stopping: { rule: 'precision' } });
  });

  it('at looks after 200, 400, 800 …, stopping at the first at which every difference is known to 1 %', () => {
    const strategies = [SWAP, CAREFUL];
    const { summary, replications } = run({ strategies });
    const { replications: n } = summary;
    expect(summary.stopping.rule).toBe('precision');
    expect([200, 400, 800, 1600, 3200, 6400, 12_800]).toContain(n);
    const isKnownBy = (count: number) =>
      (['totalTime', 'yield', 'tips'] satisfies readonly Measure[]).every((measure) => {
        const [first, other] = strategies.map(({ name }) =>
          replications
            .filter(({ strategy }) => strategy === name)
            .slice(0, count)
            .map(({ measures }) => measures[measure]),
        );
        const mean = first.reduce((sum, value) => sum + value, 0) / count;
        return pairedInterval(other, first, 0.95).halfWidth <= 0.01 * mean;
      });
    expect(n).toBeGreaterThan(200);
    expect(isKnownBy(n)).toBe(true);
    for (let look = 200; look < n; look *= 2) expect(isKnownBy(look)).toBe(false);
  });

  it('no more than the limit, which is then said, in a warning too', () => {
    const { summary } = run({ strategies: [SWAP, CAREFUL] }, { maxReplications: 210 });
    expect(summary).toMatchObject({ replications: 210, stopping: { rule: 'limit' } });
    expect(summary.warnings).toContain(summary.stopping.text);
  });
});

describe('a comparison', () => {
  const three = runWhole({ strategies: [SWAP, HOP, CAREFUL] }, { replications: 40 });

  it('pairs each strategy with the first with common random numbers, widened by Bonferroni over (strategies − 1) × 6', () => {
    const { summary, replications } = three;
    expect(summary.confidence).toEqual({ level: 0.95, comparisons: 12 });
    const level = bonferroni(0.95, 12);
    expect(level).toBeCloseTo(1 - 0.05 / 12, 12);
    const of = (name: string) =>
      replications.filter(({ strategy }) => strategy === name).map(({ measures }) => measures.totalTime);
    const { mean, low, high } = pairedInterval(of('careful'), of('by hand'), level);
    const found = summary.differences.find(({ strategy, measure }) => strategy === 'careful' && measure === 'time');
    expect(found?.estimate).toEqual({ value: mean, low, high });
    expect(new Set(summary.differences.map(({ strategy }) => strategy))).toEqual(new Set(['hopping', 'careful']));
  });

  it('gives no replication anything else where another strategy is added', () => {
    const { replications } = run({}, { replications: 40 });
    expect(three.replications.filter(({ strategy }) => strategy !== 'careful')).toEqual(replications);
  });

  it('is the same to the byte when it is run again, and another with another seed', () => {
    const again = runWhole({ strategies: [SWAP, HOP, CAREFUL] }, { replications: 40 });
    expect(JSON.stringify(again)).toBe(JSON.stringify(three));
    const other = run({ strategies: [SWAP, HOP, CAREFUL] }, { replications: 40, seed: 'other' });
    expect(JSON.stringify(other.replications)).not.toBe(JSON.stringify(three.replications));
  });

  it('has no number in its summary that JSON cannot say', () => {
    const numbers: number[] = [];
    const walk = (value: unknown) => {
      if (typeof value === 'number') numbers.push(value);
      else if (typeof value === 'object' && value !== null) Object.values(value).forEach(walk);
    };
    walk(three);
    expect(numbers.length).toBeGreaterThan(1000);
    expect(numbers.filter((value) => !Number.isFinite(value))).toEqual([]);
  });

  it.each([1, 17, 40])('traces replication %i as the comparison ran it', (replication) => {
    for (const strategy of ['by hand', 'hopping']) {
      const { timeline } = traceReplication(loaded({}), strategy, replication);
      const row = three.replications.find((one) => one.strategy === strategy && one.replication === replication);
      expect(timeline.segments.at(-1)?.end).toBe(row?.measures.totalTime);
      expect(timeline.segments.filter(({ step }) => step === 'scan')).toHaveLength(row?.measures.takes ?? -1);
    }
  });

  it('compares by instrument time, which without bookings is all time from the start to the end (MODEL.md 8)', () => {
    for (const { measures } of nonEmpty(three.replications)) expect(measures.instrumentTime).toBe(measures.totalTime);
    const booked = run({ bookings: { hours: 'Mo-Fr 09:00-09:30' } }, { replications: 5 });
    for (const { measures } of nonEmpty(booked.replications))
      expect(measures.instrumentTime).toBeLessThan(measures.totalTime);
  });

  it('shows for all strategies one replication, the least far from all medians in its worst measure', () => {
    const { summary, replications } = run({}, { replications: 9 });
    const columns = ['by hand', 'hopping'].flatMap((name) =>
      HEADLINE.map((headline) => {
        const measure = measureOf(headline);
        const values = replications
          .filter(({ strategy }) => strategy === name)
          .map(({ measures }) => measures[measure]);
        const mean = values.reduce((sum, value) => sum + value, 0) / 9;
        const deviation = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / 9);
        const median = [...values].sort((a, b) => a - b)[4];
        return values.map((value) => (deviation > 0 ? Math.abs(value - median) / deviation : 0));
      }),
    );
    const worst = Array.from({ length: 9 }, (_, i) => Math.max(...columns.map((column) => column[i])));
    const [typical] = summary.shown;
    expect(typical.label).toBe('typical');
    expect(typical.replication).toBe(worst.indexOf(Math.min(...worst)) + 1);
    expect(typical.timelines.map(({ strategy }) => strategy)).toEqual(['by hand', 'hopping']);
  });
});

describe('the verdict', () => {
  it('is inconclusive where something only assumed, put to a range limit, reverses a clear difference', () => {
    // Preparation of 30 min, once, against a change of tip by hand of 13 min in place of 8: hopping wins by little if tips break often.
    const { summary } = runWhole(
      {
        plan: { regions: 10, passes: [pass('a', 10)] },
        tips: { sharp: kind({ ...BREAKAGE, life: { distribution: 'probability', perUnit: 0.5 } }) },
        workflows: { hop: { prepareAt: 'instrument', chip: { sites: { sharp: 99 } } } },
        noticing: { attempts: 50 },
      },
      { replications: 150 },
    );
    expect(summary.verdict.decided).toBe(false);
    expect(summary.verdict.inconclusive).toMatch(/^Inconclusive: rests on “/u);
    const path = 'workflows.hop.steps.prepare.fixed';
    const turn = summary.verdict.reversals.find((candidate) => candidate.path === path && candidate.measure === 'time');
    expect(turn).toMatchObject({ strategy: 'hopping', isReversed: true });
    expect((turn?.baseline ?? 0) * (turn?.atLimit.value ?? 0)).toBeLessThan(0);
  });

  it('stands where nothing that ranks reverses or weakens, and says how far that was tried', () => {
    const { summary } = runWhole(
      { workflows: { hop: { prepareAt: 'instrument', steps: { prepare: { fixed: '30 h', success: 1 } } } } },
      { replications: 60 },
    );
    expect(summary.verdict.decided).toBe(true);
    expect(summary.verdict.findings[0]).toMatch(/stays clear, with its sign, at both range limits of/u);
    expect(summary.verdict.headline).toEqual([
      expect.stringMatching(/^“hopping” takes .* more instrument time \(95 % interval .* than “by hand”\.$/u),
      expect.stringMatching(/^No range limit reverses this \(\d+ unmeasured values tried\)\.$/u),
    ]);
  });

  it('weakens where the interval at a range limit includes 0 though its middle keeps its sign', () => {
    // One image in two breaks its tip, at most six attempts; a change takes 13 min in place of 8, and 30 min of preparing come once.
    const { summary } = runWhole(
      {
        plan: { regions: 10, passes: [pass('a', 10)] },
        tips: { sharp: kind({ ...BREAKAGE, life: { distribution: 'probability', perUnit: 0.5 } }) },
        workflows: { hop: { chip: { sites: { sharp: 99 } }, steps: { setUp: '11 min' } } },
        noticing: { attempts: 50 },
        ranges: { 'workflows.hop.steps.setUp': ['1 min', '48 min'] },
      },
      { replications: 150 },
    );
    const { reversals } = summary.verdict;
    expect(reversals.length).toBeGreaterThan(0);
    for (const { strategy, measure, baseline, atLimit, isReversed } of nonEmpty(reversals)) {
      const base = summary.differences.find((each) => each.strategy === strategy && each.measure === measure);
      expect(base?.verdict).not.toBe('no clear difference');
      const { low, high } = atLimit;
      const isOtherSide = baseline > 0 ? high < 0 : low > 0;
      expect(isReversed).toBe(isOtherSide);
      expect(isOtherSide || (low <= 0 && high >= 0)).toBe(true);
    }
    expect(reversals.some(({ isReversed, ...turn }) => !isReversed && turn.baseline * turn.atLimit.value > 0)).toBe(
      true,
    );
  });

  it('tries every measure that gets a verdict at the range limits', () => {
    // Tips that break twice as often cost time, hands, yield, undetected bad images, tips and money; at the lower limit nothing differs.
    const path = 'tips.sharp.hazards.breakage.life.perUnit';
    const { summary } = runWhole(
      {
        plan: { regions: 20 },
        tips: { sharp: { ...kind(BREAKAGE), price: '10 EUR' } },
        noticing: { review: { sensitivity: 0.5 } },
        strategies: [SWAP, { name: 'brittle', workflow: 'swap', set: { [path]: 0.4 } }],
        ranges: { [`strategies.brittle.set.${path}`]: [0.2, 0.5] },
      },
      { replications: 60 },
    );
    const clear = summary.differences
      .filter(({ verdict }) => verdict !== 'no clear difference')
      .map(({ measure }) => measure);
    expect(clear).toEqual(COMPARED);
    const weakened = summary.verdict.reversals.filter((turn) => turn.path.endsWith(path) && turn.at === '0.2');
    expect(weakened.map(({ measure }) => measure)).toEqual(COMPARED);
  });

  it('ranks nobody on time alone where the yields differ', () => {
    // Tracking leaves 1/√(1 + (v / 300 nm/s)²) of an image: 0.83 at 200 nm/s, and 0.71 at 300 nm/s, which is hurried.
    const { summary } = run(
      {
        plan: { passes: [pass('a', 10, { neededResolution: '100 nm', trackingBandwidth: '3 Hz', accept: 0.5 })] },
        tips: { sharp: kind() },
        strategies: [SWAP, { name: 'hurried', workflow: 'swap', pace: { scan: 1.5 } }],
      },
      { replications: 20 },
    );
    const of = (measure: string) => summary.differences.find((difference) => difference.measure === measure)?.verdict;
    expect([of('time'), of('yield')]).toEqual(['less', 'less']);
    expect(summary.verdict.headline.join(' ')).toMatch(/less instrument time and has .* less yield than “by hand”/u);
  });

  it('says which strategy does not always finish', () => {
    const { summary } = run({ stock: { tips: { sharp: 2 } } }, { replications: 60 });
    expect(summary.verdict.remarks.at(-1)).toMatch(/^Never complete: \d.* of campaigns with “by hand”/u);
  });
});
