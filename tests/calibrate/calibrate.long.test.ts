import { readFileSync } from 'node:fs';
import { format, resolveConfig } from 'prettier';
import { describe, expect, it } from 'vitest';
import { fileURLToPath } from 'node:url';
import { budgetCoverage } from './budget.js';
import { compareCoverage } from './compare.js';
import { boundsOf, chanceOfSoFew, Count, type Figure } from './counts.js';
import { markdownOf, PART_NAMES, readRecord } from './record.js';
import { nonEmpty } from '../support/non-empty.js';

const beside = (name: string) => fileURLToPath(new URL(name, import.meta.url));
const record = readRecord(readFileSync(beside('record.json'), 'utf8'));
const nothing = () => undefined;

const recorded = PART_NAMES.filter((name) => record[name] !== undefined);

it('has the intervals of compare and of a break-even on record', () => {
  expect(recorded).toContain('compare');
  expect(recorded).toContain('breakeven');
});

describe.each(recorded)('the recorded long run of %s', (name) => {
  const figures = record[name]?.figures ?? [];

  it('has 2000 repeats or more of every interval', () => {
    expect(figures.length).toBeGreaterThan(0);
    for (const { what, repeats, holding, above, below } of nonEmpty(figures)) {
      expect(repeats, what).toBeGreaterThanOrEqual(2000);
      expect(holding + above + below, what).toBe(repeats);
    }
  });

  it('holds the truth as often as intervals say, wider ones by design at least so often', () => {
    for (const figure of nonEmpty(figures)) {
      const { low, high } = boundsOf(figure);
      expect(figure.holding / figure.repeats, figure.what).toBeGreaterThanOrEqual(low);
      expect(figure.holding / figure.repeats, figure.what).toBeLessThanOrEqual(high);
    }
  });
});

describe('the record of calibration', () => {
  it('shows in RECORD.md what stands in record.json', async () => {
    const text = await format(markdownOf(record), {
      ...(await resolveConfig(beside('RECORD.md'))),
      parser: 'markdown',
    });
    expect(readFileSync(beside('RECORD.md'), 'utf8')).toBe(text);
  });
});

describe('the bounds of a long run', () => {
  it('are 93.9 to 96.1 % at 10 000 repeats of an interval of 95 %, and 92.5 to 97.2 % at 2000', () => {
    const bounds = (repeats: number) => boundsOf({ nominal: 0.95, held: 'both sides', repeats });
    expect(bounds(10_000).low).toBeCloseTo(0.939, 12);
    expect(bounds(10_000).high).toBeCloseTo(0.961, 12);
    expect(bounds(2000).low).toBeCloseTo(0.925, 12);
    expect(bounds(2000).high).toBeCloseTo(0.972, 12);
    expect(boundsOf({ nominal: 0.95, held: 'not below', repeats: 10_000 }).high).toBe(1);
  });

  it('count an interval by the side on which it lies of the true value', () => {
    const count = new Count({ what: '', truth: '', value: 3, nominal: 0.95, held: 'both sides' });
    for (const [low, high] of [
      [1, 2],
      [3, 4],
      [2, 3],
      [4, 5],
      [4, null],
      [null, 5],
    ] as const)
      count.add({ low, high });
    expect(count.figure).toMatchObject({ repeats: 6, holding: 3, above: 2, below: 1 });
  });
});

/*
 * Short runs, held on the lower side alone: so few repeats say nothing of intervals that are too wide. A count is refused that
 * would come with a chance below 1e-8 at a coverage of 7 % less than said, since intervals of few replications are short where
 * luck is skewed. 27 counts: a false alarm once in 3.7 million seeds, and the seeds are fixed.
 */
describe('in a short run', () => {
  function expectEnough(figures: readonly Figure[]): void {
    for (const figure of nonEmpty(figures))
      expect(chanceOfSoFew(figure, 0.07), `${figure.what}: ${figure.holding} of ${figure.repeats}`).toBeGreaterThan(
        1e-8,
      );
  }

  it('intervals of compare hold the truth', () => {
    expectEnough(compareCoverage('short', 60, 25, nothing));
  });

  it('what budget asks for suffices', () => {
    expectEnough(budgetCoverage('short', 10, 100, nothing));
  });
});
