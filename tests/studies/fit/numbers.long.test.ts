import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { isName } from '../../../src/scenario/schema/leaf.js';
import { hazardBlock } from '../../../src/studies/fit/block.js';
import type { CurvePoint, FitSummary } from '../../../src/studies/fit/results.js';
import { fitReport } from '../../../src/studies/fit/report.js';
import { fittedLog } from '../../support/fitted-log.js';
import { textsOf } from '../../support/report-texts.js';
import { nonEmpty, perhapsNone } from '../../support/non-empty.js';

const STYLES = { strong: String, quiet: String, warning: String };
const NO_NUMBER = /\b(?:NaN|Infinity|null|undefined)\b/u;

/** Every number of a summary by its path. */
function* numbersIn(value: unknown, path = ''): Generator<readonly [path: string, number: number]> {
  if (typeof value === 'number') yield [path, value];
  else if (typeof value === 'object' && value !== null)
    for (const [key, inner] of Object.entries(value)) yield* numbersIn(inner, `${path}.${key}`);
}

function expectShares(points: readonly CurvePoint[]): void {
  for (const { value, low, high } of perhapsNone(points)) {
    const shares = low === null || high === null ? [0, value, 1] : [0, low, value, high, 1];
    expect(shares).toEqual(shares.toSorted((a, b) => a - b));
  }
}

/** That all numbers are numbers, that shares are shares, and that what is shown says so. */
function expectSound(summary: FitSummary): void {
  for (const [path, number] of perhapsNone(numbersIn(summary))) expect(Number.isFinite(number), path).toBe(true);
  for (const { incidence, causes } of summary.kinds) {
    for (const { points } of incidence) expectShares(points);
    for (const { survival, turnbull } of causes) {
      expectShares(survival);
      expectShares(turnbull ?? []);
    }
  }
  expect(fitReport.text(summary, STYLES)).not.toMatch(NO_NUMBER);
}

describe('a fit', () => {
  it('gives a cause that alone ends all tips the share of one, with no interval, whatever rounding does', async () => {
    const lives = '22s 19b 3s 1b 21b 87s 26b 31b 22b 4b 19s 10b 90b'.split(' ');
    const rows = lives.map((life) => `${life.slice(0, -1)},${life.endsWith('s') ? 'sound' : 'broken'}`);
    const summary = fittedLog(['images,ended', ...rows].join('\n'));
    expectSound(summary);
    expect(summary.kinds[0].incidence[0].points.at(-1)).toMatchObject({ value: 1, low: null, high: null });
    for (const [name, content] of nonEmpty(await textsOf(fitReport, summary))) {
      if (/\.(?:html|md|csv|yaml)$/u.test(name)) expect(content, name).not.toMatch(/\b(?:NaN|undefined)\b/u);
    }
  });

  it('offers no hazards of a kind whose name a scenario refuses, and says so', () => {
    const kinds = ['sharp', '', '-dash', "it's; a `kind`", 'x'.repeat(61)];
    const rows = kinds.flatMap((kind) => [3, 5, 9].map((images) => `"${kind}",${String(images)},broken`));
    const block = hazardBlock(fittedLog(['kind,images,ended', ...rows].join('\n')));
    const read = z.object({ tips: z.record(z.string(), z.unknown()) }).parse(parse(block));
    expect(nonEmpty(Object.keys(read.tips)).every(isName)).toBe(true);
    expect(Object.keys(read.tips)).toContain('sharp');
    expect(block.match(/^# left out: no scenario has a kind called .*$/gmu)).toHaveLength(3);
    const none = hazardBlock(fittedLog('kind,images,ended\n-dash,3,broken\n-dash,5,broken'));
    expect(none).toMatch(/^# left out: .*\n$/u);
  });

  it('has no number that is none and no share beyond its ends, for any log', () => {
    const ended = fc.constantFrom('sound', 'sound', 'broken', 'broken', 'worn', 'dirty', 'suspected');
    const row = fc
      .record({
        images: fc.oneof(fc.integer({ min: 1, max: 90 }), fc.constantFrom(1, 2, 1_000_000)),
        soundFor: fc.double({ min: 0, max: 1, noNaN: true }),
        isLooked: fc.boolean(),
        load: fc.constantFrom('', '1', '1', '5', '0.01'),
        pace: fc.constantFrom('', '1', '2'),
        ended,
      })
      .map(({ images, soundFor, isLooked, load, pace, ended: end }) =>
        [images, isLooked ? Math.floor(images * soundFor) : '', load, pace, end].join(','),
      );
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 30 }), fc.boolean(), (rows, isPlain) => {
        const plain = rows.map((each) => each.replace(/^(\d+),.*,(\w+)$/u, '$1,,,,$2'));
        const head = 'images,images at last sound,load (nN),pace,ended';
        expectSound(fittedLog([head, ...(isPlain ? plain : rows)].join('\n')));
      }),
      { seed: 20261129, numRuns: 60 },
    );
  });
});
