import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CHOICES } from '../../../src/lesson/session/choices.js';
import { DECISIONS_FORM, decisionsIn, decisionsText } from '../../../src/lesson/session/link.js';

describe('decisions in a link', () => {
  it('come out as they went in', () => {
    const decision = fc.record({ point: fc.nat({ max: 99_999 }), choice: fc.constantFrom(...CHOICES) });
    fc.assert(
      fc.property(fc.array(decision, { minLength: 1, maxLength: 20 }), (decisions) => {
        const text = decisionsText(decisions);
        expect(text).toMatch(DECISIONS_FORM);
        expect(decisionsIn(text)).toEqual(decisions);
      }),
      { seed: 2, numRuns: 200 },
    );
  });

  it('are none where the text is not of their form', () => {
    for (const text of ['', '3', 'c', '3x', '3c.', '.3c', '3c 4c', '123456c']) expect(decisionsIn(text)).toEqual([]);
  });
});
