import { describe, expect, it } from 'vitest';
import { inputsCsv, methodsText } from '../../../src/studies/compare/methods/methods.js';
import { SECTIONS } from '../../../src/studies/compare/methods/items.js';
import { STEP_SHEETS } from '../../../src/studies/compare/methods/step-sheets.js';
import type { Lines } from '../../../src/campaign/procedure.js';
import type { StepName } from '../../../src/campaign/steps.js';
import { WORKFLOWS } from '../../../src/campaign/workflows.js';
import { plainModel } from '../../support/scene.js';
import { singleSample, usualSample } from '../../support/sample-summary.js';
import { nonEmpty } from '../../support/non-empty.js';

/** The items of STRESS-DES, sections 1 to 6 (Monks and others, Journal of Simulation 13, 2019, table 1). */
const ITEMS = [
  ...['1.1', '1.2', '1.3'],
  ...['2.1', '2.2', '2.3', '2.4', '2.5.1', '2.5.2', '2.5.3', '2.5.4', '2.5.5'],
  ...['3.1', '3.2', '3.3', '3.4'],
  ...['4.1', '4.2', '4.3'],
  ...['5.1', '5.2', '5.3', '5.4'],
  ...['6.1'],
];

describe('the methods text', () => {
  it.each([usualSample(), singleSample()])('answers every item of the guideline, in order', ({ summary }) => {
    const numbers = [...methodsText(summary).matchAll(/^### (\S+) \S/gm)].map(([, number]) => number);
    expect(numbers).toEqual(ITEMS);
    for (const { items } of SECTIONS)
      for (const { text } of nonEmpty(items)) {
        const said = text(summary);
        expect(said.length).toBeGreaterThan(0);
        for (const sentence of nonEmpty(said)) expect(sentence).toMatch(/\S[.:]$/);
      }
  });

  it('leaves the values to a table file, which has a row for each', () => {
    const { summary } = usualSample();
    const rows = inputsCsv(summary).trimEnd().split('\r\n');
    expect(rows).toHaveLength(1 + summary.assumptions.length);
    expect(methodsText(summary).split(/\s+/).length).toBeLessThan(2200);
  });
});

/** Steps of a procedure in the order in which its lines name them. */
function stepsIn(lines: Lines): readonly StepName[] {
  return lines.flatMap((line): readonly StepName[] => {
    switch (line.do) {
      case 'step':
        return [line.name];
      case 'either':
        return [...stepsIn(line.lines), ...stepsIn(line.others)];
      case 'while':
      case 'repeat':
        return stepsIn(line.lines);
      case 'act':
      case 'wait':
        return [];
    }
  });
}

/** Whether all of these come in this order among those. */
function isInOrder(steps: readonly StepName[], among: readonly StepName[]): boolean {
  let from = 0;
  return steps.every((step) => {
    const place = among.indexOf(step, from);
    from = place + 1;
    return place >= 0;
  });
}

describe('the steps that the methods text names', () => {
  it.each(['swap', 'hop'] as const)(
    'are those of %s, in the order in which the engine goes through them',
    (workflow) => {
      const { changeTip } = WORKFLOWS[workflow](plainModel({ workflow, regions: 2 }).settings);
      const done = stepsIn(changeTip);
      const changes = STEP_SHEETS[workflow].filter(([situation]) => /tip|Chip/.test(situation));
      expect(changes.length).toBeGreaterThan(0);
      for (const [, steps] of nonEmpty(changes)) {
        expect(isInOrder(steps, done)).toBe(true);
        expect(isInOrder([...steps].reverse(), done)).toBe(false);
      }
      const named = new Set(STEP_SHEETS[workflow].flatMap(([, steps]) => steps));
      expect(done.filter((step) => step !== 'prepare' && !named.has(step))).toEqual([]);
    },
  );
});
