import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { LuckTable, PURPOSES } from '../../src/chance/luck.js';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';
import { type MadeCell, madeWorkbook } from '../support/make-workbook.js';
import { nonEmpty } from '../support/non-empty.js';

/** A plan on which both ways take about as long while nobody knows how soon tips break. */
const SCENARIO = `title: Thirty regions, lives not known
plan:
  regions: 30
  passes:
    - { name: islands, tip: sharp, size: 1 um, lines: 256 }
tips:
  sharp:
    hazards:
      - cause: breakage
        per: image
        life: { distribution: exponential, mean: 40 images } # by hearsay
        uncertainty: { range: { mean: [8 images, 200 images] } }
      - cause: fouling
        per: image
        life: { distribution: exponential, mean: 60 images }
        uncertainty: { range: { mean: [12 images, 300 images] } }
workflows:
  hop:
    prepareAt: instrument
    chip: { sites: { sharp: 100 } }
strategies:
  - { name: swap by hand, workflow: swap }
  - { name: hop, workflow: hop }
sources:
  plan: this test
  workflows: this test
  noticing: this test
  rules: this test
  costs: this test
`;

/** Tips in a lab's own words: title, two rows of heads, a total at the foot. */
function workbook(tips: number): Uint8Array {
  const luck = new LuckTable('the lab').replication(0);
  const draw = (tip: number, what: number) => -Math.log(luck.uniform(PURPOSES.life, 0, 0, tip, what));
  const rows = Array.from({ length: tips }, (_, tip): readonly MadeCell[] => {
    const [broken, dirty, off] = [30 * draw(tip, 0), 50 * draw(tip, 1), 40 * draw(tip, 2)];
    const end = Math.max(1, Math.ceil(Math.min(broken, dirty, off)));
    const ended = broken < Math.min(dirty, off) ? 'lever broke' : dirty < off ? 'picked up polymer' : 'changed sample';
    return [
      `S-${String(tip + 1).padStart(3, '0')}`,
      'sharp',
      new Date(Date.UTC(2031, 0, 1 + tip)),
      end,
      end - 1,
      ended,
    ];
  });
  const total = rows.reduce((sum, row) => sum + Number(row[3]), 0);
  return madeWorkbook({
    Prices: [['probe', 25]],
    Tips: [
      ['Tips of bench 2'],
      ['needle', 'kind', 'taken off', 'use', null, 'what happened'],
      [null, null, null, 'images', 'last sound images', null],
      ...rows,
      ['Total', null, null, total, null, null],
    ],
  });
}

const summarySchema = z.looseObject({
  differences: z.array(
    z.looseObject({
      measure: z.string(),
      estimate: z.looseObject({ value: z.number(), low: z.number(), high: z.number() }),
    }),
  ),
});
const worthSchema = z.looseObject({
  answer: z.looseObject({ headline: z.array(z.string()) }),
  perfect: z.looseObject({ hours: z.looseObject({ value: z.number() }) }),
  records: z.array(z.looseObject({ of: z.string(), count: z.number(), hours: z.looseObject({ value: z.number() }) })),
});

/** The commands of the manual's story, in their order, each without its name. */
function story(): readonly (readonly string[])[] {
  const manual = readFileSync(join(root, 'shared/docs/commands.md'), 'utf8');
  const block = /<!-- story -->\s+```sh\n([^`]*)```/u.exec(manual)?.[1] ?? '';
  const lines = block.split('\n').filter((line) => line.startsWith('swap-or-hop '));
  return lines.map((line) => line.replace(/#.*$/u, '').trim().split(/\s+/u).slice(1));
}

describe('from a lab’s records to the value worth measuring first', () => {
  it('runs from a messy workbook to a posterior, a comparison, a worth, ten more rows and a verdict with a number', async () => {
    await inEmptyFolder(async (cwd) => {
      const run = async (...args: readonly string[]) => {
        const outcome = await swapOrHop(args, { cwd });
        expect(outcome.code, outcome.stderr).toBe(0);
        return outcome;
      };
      const [map, fit, compare, worthIt, fitAgain, compareAgain] = story();
      const read = (...path: readonly string[]) => readFileSync(join(cwd, ...path), 'utf8');
      writeFileSync(join(cwd, 'my.yaml'), SCENARIO);
      writeFileSync(join(cwd, 'tips.xlsx'), workbook(60));

      // What cannot be read is no tip fewer: it stops everything, until somebody has said what the words mean.
      const refused = await swapOrHop(['fit', 'tips.xlsx', '--into', 'my.yaml', '--sheet', 'Tips'], { cwd });
      expect(refused.code).toBe(2);
      expect(read('my.yaml')).toBe(SCENARIO);
      const proposed = await swapOrHop(map, { cwd });
      expect(proposed.code).toBe(2);
      for (const line of ['lever broke: breakage', 'picked up polymer: fouling', 'changed sample: sound'])
        expect(proposed.stdout).toContain(line);
      writeFileSync(join(cwd, 'tips.xlsx.map.yaml'), proposed.stdout);

      const fitted = await run(...fit, '--bootstrap', '0');
      expect(fitted.stderr).toContain('61 rows: 60 used, 1 left out, 0 faulty');
      const first = read('my.yaml');
      expect(first).toContain('# by hearsay');
      expect(first).toMatch(/prior: \{ mean: \[ ?8 images, 200 images ?\] \}/u);

      await run(...compare, '--replications', '200');
      const before = await run(...worthIt, '--draws', '500', '--json');
      const worth = worthSchema.parse(JSON.parse(before.stdout));
      expect(worth.answer.headline[0]).toMatch(/\d (?:min|h)|nothing that is uncertain would change the choice/u);
      expect(worth.records.map(({ count }) => count)).toEqual([5, 10, 20, 50]);
      for (const { hours } of nonEmpty(worth.records))
        expect(hours.value).toBeLessThan(worth.perfect.hours.value + 0.05);

      writeFileSync(join(cwd, 'tips.xlsx'), workbook(70));
      await run(...fitAgain, '--bootstrap', '0');
      const second = read('my.yaml');
      const variances = [first, second].map((text) => Number(/covariance: \[ ?\[ ?([\d.e-]+)/u.exec(text)?.[1]));
      expect(variances[1]).toBeLessThan(variances[0]);
      expect(second).toMatch(/prior: \{ mean: \[ ?8 images, 200 images ?\] \}/u);

      const compared = await run(...compareAgain, '--replications', '200', '--json');
      const summary = summarySchema.parse(JSON.parse(compared.stdout));
      const time = summary.differences.find(({ measure }) => measure === 'time')?.estimate;
      expect(time).toBeDefined();
      const shown = await run(...compareAgain, '--replications', '200');
      expect(shown.stdout).toMatch(/(?:Inconclusive|less|more|little to no|no clear)[\s\S]*\d/u);
    });
  });
});
