import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { factsOf } from '../../src/lesson/facts.js';
import { root } from '../support/command.js';
import { altered, load } from '../scenario/sample.js';
import { nonEmpty } from '../support/non-empty.js';

describe('what the page knows of rushing before anything has been computed', () => {
  it('is that it costs something in the lesson’s own scenario, and what', () => {
    const { strategies } = factsOf(load(readFileSync(join(root, 'scenarios/lesson.yaml'), 'utf8')), 'lesson.yaml');
    for (const { haste } of nonEmpty(strategies)) {
      expect(haste.scan).toContain('costs something in this scenario (tracking bandwidth with a needed resolution');
      expect(haste.hands).toContain('costs something in this scenario (mishandling');
    }
  });

  it('is said in one sentence to cost nothing where nothing in the scenario makes it worse', () => {
    const [swap, hop] = factsOf(load(altered()), 'sample.yaml').strategies;
    for (const { haste } of [swap, hop])
      expect(haste.scan).toMatch(/^Nothing in this scenario makes faster scanning worse \(no [^.]*\)[^.]*\.$/u);
    expect(hop.preparing).toEqual({ time: 2700, at: 'bench' });
    expect(swap.preparing).toBeNull();
  });
});
