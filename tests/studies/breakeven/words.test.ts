import { describe, expect, it } from 'vitest';
import type { Beside } from '../../../src/analysis/beside.js';
import type { BreakEvenLine } from '../../../src/studies/breakeven/results.js';
import { answerOf, type BreakEvenFound } from '../../../src/studies/breakeven/words.js';
import { said } from '../../support/said.js';

const between = ['swap', 'hop'] as const;
const range = {
  path: 'plan.regions',
  description: 'Regions; of a sample',
  low: 2,
  high: 30,
  unit: '',
  isWhole: true,
  isLog: false,
};

function beside(measure: Beside['measure'], value: number): Beside {
  return {
    measure,
    estimate: { value, low: value - 0.01, high: value + 0.01 },
    verdict: value > 0 ? 'more' : 'less',
  };
}

/** A line whose settings have these winners. */
function line(better: readonly (string | null)[], more: Partial<BreakEvenLine> = {}): BreakEvenLine {
  return {
    across: null,
    acrossNumber: null,
    pattern: 'one is better throughout',
    isPrecise: true,
    crossings: [],
    besideEnds: [[], []],
    points: better.map((name, place) => ({
      number: place + 2,
      setting: String(place + 2),
      difference: name === null ? { value: -100, low: -700, high: 500 } : { value: -600, low: -700, high: -500 },
      smallest: 180,
      first: 3600,
      second: 3000,
      replications: 200,
      better: name,
    })),
    ...more,
  };
}

function answer(lines: readonly BreakEvenLine[], more: Partial<BreakEvenFound> = {}) {
  return answerOf({ between, measure: 'time', level: 0.95, range, across: null, lines, ...more }, 'EUR');
}

const crossing = { value: 10.5, low: 9, high: 12, below: 'swap', above: 'hop', beside: [] };

describe('the answer of a break-even', () => {
  it('stands where the data speak for the better too, and does not where they speak against it', () => {
    const data = (value: number): BreakEvenLine => {
      const there = [beside('yield', value)];
      return line(['hop', 'hop'], { besideEnds: [there, there] });
    };
    const forIt = answer([data(0.05)]);
    expect(forIt.decided).toBe(true);
    expect(said(forIt)[1]).toMatch(/more yield, so the data speak for “hop” too\.$/u);
    const against = answer([data(-0.05)]);
    expect(against.decided).toBe(false);
    expect(said(against)[1]).toMatch(/less yield: instrument time alone does not decide between them\.$/u);
    expect(answer([data(-0.05)], { measure: 'yield' }).decided).toBe(true);
  });

  it('takes a smaller undetected bad share for the better one', () => {
    const there = [beside('undetectedBadShare', -0.05)];
    expect(answer([line(['hop', 'hop'], { besideEnds: [there, there] })]).decided).toBe(true);
    expect(answer([line(['swap', 'swap'], { besideEnds: [there, there] })]).decided).toBe(false);
  });

  it('names the settings at which the two show no clear difference, and is open then', () => {
    const open = answer([line(['hop', null, 'hop'], { pattern: 'no clear difference' })]);
    expect(open.decided).toBe(false);
    expect(open.headline).toEqual([
      'No break-even is clear between 2 and 30 of “Regions”.',
      '“swap” and “hop” show no clear difference at 3; elsewhere “hop” takes less instrument time.',
    ]);
    expect(said(answer([line([null, null], { pattern: 'no clear difference' })]))[1]).toBe(
      '“swap” and “hop” show a clear difference at no setting tried.',
    );
  });

  it('does not take the settings about a break-even for ones that stay open', () => {
    const near = line(['swap', null, null, 'hop'], {
      pattern: 'crosses',
      crossings: [{ ...crossing, value: 3.5, low: 3.2, high: 3.8 }],
    });
    expect(said(answer([near])).filter((sentence) => sentence.includes('no clear difference at'))).toEqual([]);
  });

  it('says of a plane where its line lies, and who is better where there is none', () => {
    const across = { ...range, path: 'workflows.hop.chip.price', description: 'Price; of one chip', unit: 'EUR' };
    const lines = [
      line(['swap', 'hop'], { across: '50 EUR', acrossNumber: 50, pattern: 'crosses', crossings: [crossing] }),
      line(['swap', 'swap'], { across: '400 EUR', acrossNumber: 400 }),
    ];
    const plane = answer(lines, { across, measure: 'cost' });
    expect(plane.headline).toEqual([
      'By “Price”, the break-even in “Regions” lies at 10.5 (95 % interval 9.0 to 12.0) at 50 EUR.',
      'Below the line “swap” costs less, above it “hop”.',
    ]);
    expect(plane.findings[0]).toBe('“swap” costs less over the whole range at 400 EUR.');
    expect(said(answer([lines[1]], { across, measure: 'cost' }))[0]).toMatch(
      /^There is no break-even in “Regions” at any setting of “Price”/u,
    );
  });

  it('is that nothing could be tried where no setting is a scenario', () => {
    expect(answer([])).toMatchObject({
      headline: ['Nothing could be tried: no setting is a scenario.'],
      decided: false,
    });
  });
});
