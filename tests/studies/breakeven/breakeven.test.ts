import { describe, expect, it } from 'vitest';
import type { PairMeasure } from '../../../src/analysis/compared-measures.js';
import type { BreakEven } from '../../../src/studies/breakeven/results.js';
import { breakEven, breakEvenWork } from '../../../src/studies/breakeven/breakeven.js';
import { readVaried, type Varied } from '../../../src/analysis/vary/varied.js';
import { runInProcess } from '../../../src/execution/in-process.js';
import { Stopped, type Work } from '../../../src/execution/work.js';
import { BREAK_EVEN, KNOWN, KNOWN_TEXT, loadedFrom } from '../../support/known-break-even.js';
import { said } from '../../support/said.js';
import { stoppedAfter } from '../../support/stopped.js';
import { nonEmpty } from '../../support/non-empty.js';

/*
 * Fixed seeds. Where a truth is known, the interval holds it with 95 % each; five such intervals are looked at here, which these
 * seeds pass. How often an interval holds the truth is tested in coverage.test.ts and tests/statistics/crossing.test.ts.
 */

const RECORD = { file: 'known.yaml', sha256: '0', toolVersion: '0', seed: 'break-even' };

function varied(text: string, scenario = KNOWN_TEXT): Varied {
  const reading = readVaried(loadedFrom(scenario), text);
  if (!reading.ok) throw new Error(reading.message);
  return reading.value;
}

function found(...asked: Parameters<typeof finding>): BreakEven {
  return runInProcess(finding(...asked));
}

function finding(
  vary: string,
  measure: PairMeasure = 'time',
  scenario = KNOWN_TEXT,
  across?: string,
  between: readonly [string, string] = ['swap', 'hop'],
): Work<BreakEven> {
  const second = across === undefined ? {} : { across: varied(across, scenario) };
  return breakEvenWork(loadedFrom(scenario), { ...RECORD, vary: varied(vary, scenario), ...second, between, measure });
}

describe('a break-even', () => {
  it('of known answer 4 lies within its interval, which is as narrow as was asked for', () => {
    const result = found('plan.regions=1..13 in 5');
    const [line] = result.lines;
    expect(line).toMatchObject({ pattern: 'crosses', isPrecise: true });
    expect(line.crossings).toHaveLength(1);
    const [{ value, low, high, below, above }] = line.crossings;
    expect(low).toBeLessThanOrEqual(BREAK_EVEN);
    expect(high).toBeGreaterThanOrEqual(BREAK_EVEN);
    expect(value).toBeGreaterThan(low);
    expect(value).toBeLessThan(high);
    expect(high - low).toBeLessThanOrEqual(1);
    expect({ below, above }).toEqual({ below: 'swap', above: 'hop' });
    expect(said(result.answer)[0]).toMatch(
      /^Break-even in “Regions of interest of each sample” at 5\.\d+ \(95 % interval \d\.\d+ to \d\.\d+\): below, “swap” takes less instrument time; above, “hop”\.$/u,
    );
    expect(said(result.answer).join(' ')).toContain('Between whole numbers the difference is taken as linear.');
    expect(result.answer.decided).toBe(true);
  });

  it('of operator time weighs preparation against exchanges by hand, wherever the specimen is prepared', () => {
    // As known answer 4, but of each change the operator's part alone: N = (P/s)(1-p)/(p·c_exchange), for offsets need nobody.
    const { prepare, success, breaks, swap } = KNOWN;
    const truth = ((prepare / success) * (1 - breaks)) / (breaks * swap);
    const { lines, answer } = found('plan.regions=1..13 in 5', 'operatorTime');
    const [{ low, high }, ...others] = lines[0].crossings;
    expect(others).toEqual([]);
    expect(low).toBeLessThanOrEqual(truth);
    expect(high).toBeGreaterThanOrEqual(truth);
    expect(high - low).toBeLessThanOrEqual(1);
    expect(said(answer)[0]).toMatch(/: below, “swap” takes less operator time; above, “hop”\.$/u);
  });

  it('says in turn that there is none, and who is better throughout', () => {
    const { lines, answer } = found('plan.regions=20..40 in 3');
    expect(lines[0]).toMatchObject({ pattern: 'one is better throughout', crossings: [] });
    expect(lines[0].points.map(({ better }) => better)).toEqual(['hop', 'hop', 'hop']);
    expect(said(answer)[0]).toMatch(
      /^No break-even between 20 and 40 of “Regions of interest of each sample”: “hop” takes less instrument time than “swap” at every setting tried/u,
    );
  });

  it('is told from two that are equal in every replication', () => {
    const { lines, answer } = found('plan.regions=2..4 in 2', 'yield');
    expect(lines[0].pattern).toBe('equal throughout');
    expect(said(answer)[0]).toContain('come to exactly the same yield');
  });

  it('has the same bytes each time, and others with another seed', () => {
    const [a, b] = [found('plan.regions=1..13 in 3'), found('plan.regions=1..13 in 3')];
    expect(JSON.stringify(a)).toBe(JSON.stringify(b));
    const vary = varied('plan.regions=1..13 in 3');
    const other = breakEven(loadedFrom(KNOWN_TEXT), {
      ...RECORD,
      seed: 'other',
      vary,
      between: ['swap', 'hop'],
      measure: 'time',
    });
    expect(other.lines[0].crossings[0].value).not.toBe(a.lines[0].crossings[0].value);
  });

  it('of two paths is a line in their plane: known answer 4 for each preparation', () => {
    const { lines, answer } = found(
      'plan.regions=1..25',
      'time',
      KNOWN_TEXT,
      'workflows.hop.steps.prepare.fixed=420 s, 1260 s, 9000 s',
    );
    expect(lines.map(({ pattern }) => pattern)).toEqual(['crosses', 'crosses', 'one is better throughout']);
    for (const [place, factor] of [1, 3].entries()) {
      const [{ low, high }] = lines[place].crossings;
      expect(low).toBeLessThanOrEqual(factor * BREAK_EVEN);
      expect(high).toBeGreaterThanOrEqual(factor * BREAK_EVEN);
    }
    expect(said(answer).join(' ')).toContain('“swap” takes less instrument time over the whole range at 9000 s.');
  });
});

/*
 * Known answer 5: with no time for a change, a good image takes T/x · exp(h xᵅ) at the pace x. Against a strategy that takes
 * 1.02 T whatever x is, that is equal twice, on both sides of the best pace.
 */
const [H, ALPHA, AGAINST] = [0.1, 3, 1.02];
const RUSHING = KNOWN_TEXT.replace('exchange: 500 s', 'exchange: 0 s')
  .replace('perUnit: 0.2 }', `perUnit: ${1 - Math.exp(-H)} }, acceleration: { pace: ${ALPHA} }`)
  .replace('regions: 5', 'regions: 60')
  .replace('{ name: swap, workflow: swap }', '{ name: rushing, workflow: swap }')
  .replace(
    '{ name: hop, workflow: hop }',
    `{ name: steady, workflow: swap, set: { pace.scan: ${1 / AGAINST}, tips.tip.hazards.breakage.life.perUnit: 0.000001 } }`,
  );

function rootOf(f: (x: number) => number, low: number, high: number): number {
  let [a, b] = [low, high];
  for (let step = 0; step < 60; step += 1) {
    const middle = (a + b) / 2;
    if (f(a) * f(middle) <= 0) b = middle;
    else a = middle;
  }
  return a;
}

describe('several break-evens', () => {
  it('are all found, each with an interval that holds the true one', () => {
    const { lines, answer } = found('pace.scan=0.8..2.2 in 8', 'time', RUSHING, undefined, ['rushing', 'steady']);
    const curve = (x: number) => Math.exp(H * x ** ALPHA) / x - AGAINST;
    const truths = [rootOf(curve, 0.8, 1.49), rootOf(curve, 1.5, 2.2)];
    const { crossings } = lines[0];
    expect(crossings.map(({ below, above }) => [below, above])).toEqual([
      ['steady', 'rushing'],
      ['rushing', 'steady'],
    ]);
    // The line between settings is bent here; what straight pieces leave out is less than 0.01 of pace.
    for (const [place, truth] of nonEmpty(truths.entries())) {
      expect(crossings[place].low).toBeLessThanOrEqual(truth + 0.01);
      expect(crossings[place].high).toBeGreaterThanOrEqual(truth - 0.01);
      expect(Math.abs(crossings[place].value - truth)).toBeLessThan(0.06);
    }
    expect(said(answer).filter((sentence) => sentence.startsWith('Break-even in'))).toHaveLength(2);
  });
});

describe('what is asked for wrongly', () => {
  it('is a bug of the caller: a choice, or a strategy that is none', () => {
    const loaded = loadedFrom(KNOWN_TEXT);
    const choice = varied('plan.order=region-first, tip-first');
    expect(() => breakEven(loaded, { ...RECORD, vary: choice, between: ['swap', 'hop'], measure: 'time' })).toThrow(
      RangeError,
    );
    const vary = varied('plan.regions=1..3');
    expect(() => breakEven(loaded, { ...RECORD, vary, between: ['swap', 'stay'], measure: 'time' })).toThrow(
      RangeError,
    );
  });
});

describe('a break-even that is interrupted', () => {
  it('says what is known by then, with intervals as wide as that, and decides nothing', () => {
    const whole = found('plan.regions=1..13 in 5');
    const early = stoppedAfter(finding('plan.regions=1..13 in 5'), 1);
    expect(early.stopping).toMatch(/^interrupted, before each break-even was known to ±2 % of the range/u);
    expect(early.answer.decided).toBe(false);
    expect(said(early.answer)[0]).toBe(`Inconclusive: ${early.stopping}.`);
    expect(said(early.answer)[1]).toMatch(/^Break-even in /u);
    expect(early.warnings).toContain(early.stopping);
    const [line] = early.lines;
    expect(line).toMatchObject({ pattern: 'crosses', isPrecise: false });
    expect(nonEmpty(line.points).every(({ replications }) => replications === 200)).toBe(true);
    const width = ({ lines }: BreakEven) => lines[0].crossings[0].high - lines[0].crossings[0].low;
    expect(width(early)).toBeGreaterThan(width(whole));
  });

  it('keeps the lines that were begun', () => {
    const whole = found('plan.regions=1..13', 'time', KNOWN_TEXT, 'pace.hands=1, 2');
    expect(whole.lines).toHaveLength(2);
    const early = stoppedAfter(finding('plan.regions=1..13', 'time', KNOWN_TEXT, 'pace.hands=1, 2'), 1);
    expect(early.lines.map(({ across }) => across)).toEqual(['1']);
    expect(early.answer.decided).toBe(false);
  });

  it('has nothing to say before the first look is whole', () => {
    expect(() => stoppedAfter(finding('plan.regions=1..13 in 5'), 0)).toThrow(Stopped);
  });
});
