import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { writeValue } from '../../src/explore/engine/write-value.js';
import { root } from '../support/command.js';
import { loadedOf } from '../support/run.js';

const text = readFileSync(join(root, 'scenarios/ambient-islands.yaml'), 'utf8');

function written(path: string, value: string): string {
  const result = writeValue(text, loadedOf(text), path, value);
  if (!result.ok) throw new Error(result.messages.join('; '));
  return result.text;
}

/** Lines that one text has and the other has not. */
function newLines(after: string): readonly string[] {
  const before = text.split('\n');
  return after.split('\n').filter((line) => !before.includes(line));
}

describe('a value put into the text of a scenario', () => {
  it.each([
    ['plan.regions', '30', ['  regions: 30']],
    ['plan.passes.overview.load', '3 nN', ['      load: 3 nN # an equivalent for intermittent contact']],
    ['tips.sharp.price', '30 EUR', ['    price: 30 EUR']],
    ['rules.radiusAbove', '18 nm', [expect.stringContaining('radiusAbove: 18 nm # about where')]],
    ['strategies.hop.set.tips.sharp.radius.nominal', '10 nm', ['      tips.sharp.radius.nominal: 10 nm']],
    ['strategies.swap in a hurry.pace.scan', '1.2', [expect.stringContaining('{ scan: 1.2, hands: 1.5 }')]],
  ])('changes the line of %s alone, and keeps the comment beside it', (path, value, lines) => {
    expect(newLines(written(path, value))).toEqual(lines);
  });

  it('writes a value that was left to its default, with what has to stand beside it', () => {
    const after = written('workflows.swap.steps.setUp.usual', '25 min');
    expect(after).toMatch(/setUp: \{ usual: 25 min, p90: [\d.]+ min \}|setUp: \{ p90: [\d.]+ min, usual: 25 min \}/u);
    expect(loadedOf(after).register.find(({ path }) => path === 'workflows.swap.steps.setUp.usual')?.value).toBe(
      '25 min',
    );
  });

  it('takes a value away where nothing is typed, so that its default comes back', () => {
    expect(newLines(written('plan.passes.overview.accept', ''))).toEqual([]);
    expect(written('plan.passes.overview.accept', '')).not.toMatch(/weight: .*\n\s+accept: 0.5/u);
  });
});
