import { expect, it } from 'vitest';
import { holdVerdict, QUICK, SHIPPED } from '../../support/verdict-block.js';

const slow = SHIPPED.filter((file) => !QUICK.includes(file));

it('every other scenario that is shipped is tried here', () => {
  expect(slow).toHaveLength(SHIPPED.length - QUICK.length);
});

it.each(slow)('the verdict of %s has at most 60 words, and names no path of a value', holdVerdict);
