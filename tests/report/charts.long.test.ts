import { describe, it } from 'vitest';
import { DRAWN, expectDrawn, expectTold } from '../support/charts-drawn.js';
import { largeSample, sampleComparison } from '../support/sample-summary.js';

const SAMPLES = [
  ['eight strategies and 3000 images', largeSample().summary],
  ['no variance at all', sampleComparison({ strategies: 2, images: 40, bookings: true, fixed: true }).summary],
  [
    'an experiment that never ends',
    sampleComparison({ strategies: 3, images: 40, bookings: false, endless: true }).summary,
  ],
] as const;

describe.each(SAMPLES)('charts of %s', (_, summary) => {
  it.each(DRAWN)('%s, %i pixels wide, follows the schema and compiles without warnings', async (_id, width, chart) => {
    await expectDrawn(summary, chart, width);
  });

  it('have a caption, a text alternative and numbers for each', () => {
    expectTold(summary);
  });
});
