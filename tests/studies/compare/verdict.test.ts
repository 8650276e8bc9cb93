import { describe, expect, it } from 'vitest';
import type { Difference, Reversal } from '../../../src/analysis/results.js';
import { type Found, verdictOf } from '../../../src/studies/compare/verdict.js';
import { sampleComparison } from '../../support/sample-summary.js';
import { withUnknown } from '../../support/sample-unknown.js';

const HOUR = 3600;
const SESSION = { text: '1 session', unit: 'session', end: 1 } as const;
const { summary } = sampleComparison({ strategies: 2, images: 48, bookings: true });
const [first, second] = summary.strategies;
const [own, other] = [second.name, first.name];

/** A difference of the second strategy; what is of interest is so small that every clear one matters, unless said otherwise. */
function difference(measure: Difference['measure'], low: number, high: number, smallest = 0): Difference {
  return {
    strategy: second.name,
    measure,
    estimate: { value: (low + high) / 2, low, high },
    relativePrecision: 0.01,
    smallest,
    verdict: low > 0 ? 'more' : high < 0 ? 'less' : 'no clear difference',
  };
}

const LESS_TIME = difference('time', -2 * HOUR, -HOUR);
const MORE_TIME = difference('time', HOUR, 2 * HOUR);
const SAME_TIME = difference('time', -HOUR, HOUR);
const SAME_YIELD = difference('yield', -0.01, 0.01);
const LESS_YIELD = difference('yield', -0.02, -0.01);
const SAME_BAD = difference('undetectedBadShare', -0.01, 0.01);

const LESS_OPERATOR = difference('operatorTime', -2 * HOUR, -HOUR);
const MORE_OPERATOR = difference('operatorTime', HOUR, 2 * HOUR);
const FEWER_COMPLETE = difference('withinAllocation', -0.4, -0.35);

function reversal(at: string, isReversed: boolean, measure: Reversal['measure'] = 'time'): Reversal {
  const atLimit = { value: HOUR, low: isReversed ? HOUR / 2 : -HOUR, high: 3 * HOUR };
  const { path } = summary.assumptions[4];
  return { path, strategy: second.name, measure, at, baseline: -HOUR, atLimit, isReversed };
}

function verdict(
  differences: readonly Difference[],
  reversals: readonly Reversal[] = [],
  changes: Partial<Found> = {},
) {
  const assumptions = summary.assumptions.map((entry, i) => ({ ...entry, reversals: i === 4 ? reversals : null }));
  const found: Found = {
    ...summary,
    currency: 'EUR',
    freeHaste: [],
    strategies: [first, second],
    differences,
    assumptions,
    ...changes,
  };
  return verdictOf(found);
}

function said(...parts: Parameters<typeof verdict>): string {
  return verdict(...parts).findings.join(' ');
}

/** What a headline ends with where one value was tried, which undoes nothing. */
const HELD = 'No range limit reverses this (1 unmeasured value tried).';

describe('the headline of a verdict', () => {
  it('says who is better at what, by how much, with the level of its intervals', () => {
    expect(verdict([LESS_TIME, MORE_OPERATOR, LESS_YIELD, SAME_BAD]).headline).toEqual([
      `“${own}” takes 1 h 30 min less instrument time (95 % interval 1 h to 2 h) and 1 h 30 min more operator time (1 h to 2 h) and has 1.5 percentage points less yield (1.0 to 2.0) than “${other}”.`,
      HELD,
    ]);
  });

  it('names both directions where no difference is clear', () => {
    expect(verdict([SAME_TIME]).headline).toEqual([
      `“${own}” shows no clear difference in instrument time (from 60 min less to 60 min more), against “${other}”.`,
    ]);
  });

  it('calls little what is clear but smaller than what matters, or what rules out more than that', () => {
    expect(verdict([difference('yield', 0.002, 0.004, 0.01)]).headline).toEqual([
      `“${own}” shows little to no difference in yield (0.30 percentage points more, 0.20 to 0.40), against “${other}”.`,
    ]);
    expect(verdict([difference('yield', -0.002, 0.004, 0.01)]).headline).toEqual([
      `“${own}” shows little to no difference in yield (more than 1 percentage point is ruled out), against “${other}”.`,
    ]);
  });

  it('says only that a difference may be so which rests on something unmeasured', () => {
    expect(verdict([LESS_TIME, LESS_YIELD], [reversal('8 h', true)]).headline).toEqual([
      `“${own}” may take 1 h 30 min less instrument time (95 % interval 1 h to 2 h) and has 1.5 percentage points less yield (1.0 to 2.0) than “${other}”.`,
    ]);
  });

  it('is who completes more often, and no time, where completion differs by what matters', () => {
    const strategies: Found['strategies'] = [
      { ...first, withinAllocation: { value: 0.7, low: 0.684, high: 0.716 } },
      { ...second, withinAllocation: { value: 0.801, low: 0.787, high: 0.815 } },
    ];
    const changes: Partial<Found> = { strategies, allocation: SESSION };
    expect(verdict([difference('withinAllocation', 0.08, 0.12), LESS_TIME], [], changes).headline).toEqual([
      `“${own}” completes within 1 session more often than “${other}”: 80.1 % (95 % interval 78.7 to 81.5) of campaigns against 70.0 % (68.4 to 71.6).`,
      HELD,
    ]);
    expect(verdict([difference('withinAllocation', 0.001, 0.003, 0.05), LESS_TIME], [], changes).headline[0]).toContain(
      'less instrument time',
    );
  });

  it('names the surest first where several complete more often, and says all and none without digits', () => {
    const share = (value: number) => ({ value, low: Math.max(0, value - 0.02), high: Math.min(1, value + 0.02) });
    const strategies: Found['strategies'] = [
      { ...first, withinAllocation: share(0) },
      { ...second, withinAllocation: share(0.24) },
      { ...second, name: 'third', withinAllocation: share(1) },
    ];
    const more = difference('withinAllocation', 0.2, 0.28);
    const changes: Partial<Found> = { strategies, allocation: SESSION };
    expect(verdict([more, { ...more, strategy: 'third' }], [], changes).headline).toEqual([
      `“third” and “${own}” complete within 1 session more often than “${other}”: 100 % (95 % interval 98.0 to 100.0) and 24 % (22 to 26) of campaigns against 0 %.`,
      HELD,
    ]);
  });

  it('says for how many sessions to ask where the granted time makes some campaigns incomplete', () => {
    const reached = (...shares: readonly number[]) =>
      shares.map((value, place) => ({ session: place + 1, time: place, value, low: value, high: value }));
    const within = (value: number) => ({ value, low: value, high: value });
    const remarks = (strategies: Found['strategies']) =>
      verdict([LESS_TIME], [], { strategies, allocation: SESSION }).remarks.join(' ');
    const slow = { ...first, withinAllocation: within(0.1), finishedBySession: reached(0.1, 0.5, 0.92, 1) };
    const quick = { ...second, withinAllocation: within(0.5), finishedBySession: reached(0.5, 0.9, 1) };
    const never = { ...second, name: 'third', withinAllocation: within(0), finishedBySession: reached(0, 0, 0.3) };
    expect(remarks([slow, quick])).toContain(
      `For an estimated 90 % probability of completion: 2 sessions with “${own}”, 3 with “${other}”.`,
    );
    expect(remarks([slow, never])).toContain(
      `3 sessions with “${other}”, not reached in the sessions simulated with “third”.`,
    );
    expect(remarks([{ ...slow, withinAllocation: within(0.9) }, quick, never])).toContain('90 % probability');
    expect(remarks([{ ...slow, withinAllocation: within(0.95) }])).not.toContain('90 %');
    expect(
      remarks([
        { ...slow, withinAllocation: null },
        { ...quick, withinAllocation: null },
      ]),
    ).not.toContain('90 %');
  });

  it('puts first, of what reverses, what undoes a part of the verdict', () => {
    const assumptions = summary.assumptions.map((entry, place) => {
      const measure: Reversal['measure'] = place === 3 ? 'tips' : 'time';
      const reversals = place === 3 || place === 4 ? [{ ...reversal('8 h', true, measure), path: entry.path }] : null;
      return { ...entry, reversals };
    });
    const { reversals } = verdict([LESS_TIME, difference('tips', 1, 2)], [], { assumptions });
    expect(reversals.map(({ measure }) => measure)).toEqual(['time', 'tips']);
  });

  it('ends with the ranges that undo none of it, where they were tried', () => {
    const assumptions = summary.assumptions.map((entry, place) => ({ ...entry, reversals: place < 2 ? [] : null }));
    const { headline } = verdict([LESS_TIME], [], { assumptions });
    expect(headline.at(-1)).toBe('No range limit reverses this (2 unmeasured values tried).');
    expect(verdict([LESS_TIME], [reversal('8 h', true)]).headline.join(' ')).not.toContain('range limit');
  });

  it('leaves what must be said besides to the remarks below the block', () => {
    const free = 'Nothing in the scenario makes the faster scan worse.';
    const { headline, remarks } = verdict([LESS_TIME], [], { freeHaste: [free] });
    expect(remarks).toContain(free);
    expect(headline.join(' ')).not.toContain(free);
  });
});

describe('a verdict is inconclusive', () => {
  it('where an unmeasured value reverses or weakens a difference that ranks, and names it by its name, never by its path', () => {
    for (const isReversed of [true, false]) {
      const open = verdict([LESS_TIME], [reversal('8 h', isReversed)]);
      expect(open.inconclusive).toBe(
        `Inconclusive: rests on “${summary.assumptions[4].description}”, which is unmeasured.`,
      );
      expect(open.decided).toBe(false);
    }
  });

  it('not where that is so of tips or cost alone', () => {
    expect(verdict([LESS_TIME], [reversal('8 h', true, 'tips')])).toMatchObject({ decided: true, inconclusive: null });
  });

  it('not where the difference lies below what matters', () => {
    const barely = difference('yield', 0.002, 0.004, 0.01);
    expect(verdict([LESS_TIME, barely], [reversal('8 h', true, 'yield')])).toMatchObject({
      decided: true,
      inconclusive: null,
    });
  });

  it('where completion reverses, not where a time does that it does not rank', () => {
    const on = (measure: Reversal['measure']) =>
      verdict([FEWER_COMPLETE, LESS_TIME, SAME_YIELD, SAME_BAD], [reversal('8 h', true, measure)]);
    expect(on('withinAllocation').decided).toBe(false);
    expect(on('time').decided).toBe(true);
  });
});

describe('below the verdict stands', () => {
  it('every measure, what matters before what does not', () => {
    expect(said([SAME_TIME, LESS_OPERATOR, LESS_YIELD, SAME_BAD])).toContain(
      `“${own}” takes 1 h 30 min less operator time (95 % interval 1 h to 2 h) and has 1.5 percentage points less yield (1.0 to 2.0) than “${other}”; no clear difference in instrument time (from 60 min less to 60 min more) and undetected bad share (from 1.0 percentage points less to 1.0 percentage points more).`,
    );
  });

  it('that completion ranks no time', () => {
    const strategies = [first, { ...second, withinAllocation: { value: 0.62, low: 0.6, high: 0.64 } }];
    const differences = [FEWER_COMPLETE, LESS_TIME, LESS_OPERATOR, LESS_YIELD, SAME_BAD];
    const findings = said(differences, [], { strategies });
    expect(findings).toContain(
      `“${own}” completes within 4 sessions in 62 % (95 % interval 60 to 64) of campaigns, “${other}” in `,
    );
    expect(findings).toContain('so no time is ranked.');
    expect(findings).not.toMatch(/less (?:instrument|operator) time/u);
  });

  it('how rare an event may be that no campaign met, where all were alike in time', () => {
    const none = difference('time', 0, 0);
    // 1 - 0.025^(1/200): the upper end of Clopper and Pearson where an event never came.
    expect(said([none, SAME_YIELD, SAME_BAD], [], { replications: 200 })).toContain(
      'In none of 200 campaigns did the two differ in time; events in fewer than 1.8 % of campaigns may not have been met.',
    );
    expect(said([SAME_TIME, SAME_YIELD, SAME_BAD])).not.toContain('In none of');
  });

  it('how far range limits were tried, of differences that matter only', () => {
    expect(said([LESS_TIME, SAME_YIELD, SAME_BAD])).toMatch(
      /^Every difference in completion, time and data quality that matters stays clear, with its sign, at both range limits/u,
    );
    expect(said([SAME_TIME, SAME_YIELD, SAME_BAD])).toMatch(
      /^No difference in completion, time or data quality matters/u,
    );
  });

  it('where preparation is counted, and that it is paid back only where it is part of instrument time', () => {
    const split = { ...first.split, 'preparing and setting up': first.split['preparing and setting up'] + 90 * HOUR };
    const hopping = (preparesOnBench: boolean) => ({
      strategies: [
        { ...first, workflow: 'swap' as const },
        { ...second, workflow: 'hop' as const, split, preparesOnBench },
      ],
    });
    const told = [MORE_TIME, SAME_YIELD, SAME_BAD];
    expect(said(told, [], hopping(false))).toContain(
      `Preparation of “${own}” is counted at the instrument, in instrument time too; preparing and setting up takes`,
    );
    expect(said(told, [], hopping(false))).toContain('preparation costs more time than the changes it saves');
    expect(said(told, [], hopping(true))).toContain(
      `Preparation of “${own}” is counted at the bench, in operator time and cost, not in instrument time; `,
    );
    const alike = {
      strategies: [first, { ...second, workflow: first.workflow, preparesOnBench: first.preparesOnBench }],
    };
    expect(said(told, [], alike)).not.toContain('reparation');
  });
});

describe('an interval in a verdict', () => {
  it('never reads as reaching zero where it leaves zero out', () => {
    expect(said([LESS_TIME, difference('yield', 0.0002, 0.0122), SAME_BAD])).toContain(
      '0.62 percentage points more yield (0.02 to 1.22)',
    );
  });
});

describe('of uncertain parameters a verdict', () => {
  const { parameterUncertainty } = withUnknown(sampleComparison({ strategies: 2, images: 48, bookings: true })).summary;
  const told = [LESS_TIME, MORE_OPERATOR, LESS_YIELD, difference('undetectedBadShare', 0.02, 0.03)];
  const turning = (measures: readonly string[]): Partial<Found> => ({
    parameterUncertainty:
      parameterUncertainty === null
        ? null
        : {
            ...parameterUncertainty,
            differences: parameterUncertainty.differences.map((each) => ({
              ...each,
              turns: measures.includes(each.measure),
            })),
          },
  });

  it('stands where no difference can have the other sign', () => {
    expect(said(told, [], turning([]))).toContain('keeps its sign over the middle 95 % of');
  });

  it('never stands where the sign of a difference that ranks is open, and says by what', () => {
    for (const measure of ['time', 'operatorTime', 'yield', 'undetectedBadShare']) {
      const open = verdict(told, [], turning([measure]));
      expect(open.decided).toBe(false);
      expect(open.inconclusive).toContain('“sharp, breakage: life”');
      const findings = open.findings.join(' ');
      expect(findings).toContain('7 % of draws.');
      expect(open.remarks.join(' ')).toContain(
        'Measure “sharp, breakage: life” first: worth 24 min a campaign (95 % interval 12 min to 48 min)',
      );
      expect(findings).not.toContain('keeps its sign');
    }
  });

  it('stands where only tips or cost are open, and says so below', () => {
    const { decided, findings } = verdict(told, [], turning(['tips']));
    expect(decided).toBe(true);
    expect(findings.join(' ')).toContain('in tips of');
  });
});
