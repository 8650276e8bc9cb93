import { describe, expect, it } from 'vitest';
import { expandPlan, planSummary } from '../../src/scenario/plan.js';
import { altered, load } from './sample.js';

/** Three passes of two kinds over two regions. */
function threePasses(order: string) {
  const text = altered(
    ['order: region-first', `order: ${order}`],
    ['regions: 4', 'regions: 2'],
    ['tips:\n', '    - {name: again, tip: sharp, size: 1 um, lines: 64, lineRate: 2 Hz}\ntips:\n'],
  );
  return load(text).base;
}

/** `region pass kind` of every image. */
function inOrder(order: string): readonly string[] {
  return expandPlan(threePasses(order)).map(({ region, pass, kind }) => `${region} ${pass} ${kind}`);
}

describe('the plan', () => {
  it('takes all passes of a region in listed order, then the next region, in region-first order', () => {
    expect(inOrder('region-first')).toEqual(['0 0 0', '0 1 1', '0 2 0', '1 0 0', '1 1 1', '1 2 0']);
  });

  it('takes all images of a tip kind region by region, then those of the next kind, in tip-first order', () => {
    expect(inOrder('tip-first')).toEqual(['0 0 0', '0 2 0', '1 0 0', '1 2 0', '0 1 1', '1 1 1']);
  });

  it('numbers images in the order in which they are taken', () => {
    expect(expandPlan(threePasses('tip-first')).map(({ image }) => image)).toEqual([0, 1, 2, 3, 4, 5]);
  });

  it('scans lines at the line rate over trace and retrace', () => {
    const [first] = expandPlan(load(altered()).base);
    expect(first).toMatchObject({ scanTime: 128, path: 1.28, speed: 10_000 });
  });

  it('scans faster in proportion to the pace, over the same path', () => {
    const [first] = expandPlan(load(altered(['strategies:', 'pace: {scan: 2}\nstrategies:'])).base);
    expect(first).toMatchObject({ scanTime: 64, path: 1.28, speed: 20_000 });
  });

  it('is no shorter than one take of every image after the least start', () => {
    const { base } = load(altered());
    // 4 × (128 s + 256 s); lognormal steps have no least time above zero; preparing is fixed here, and at the bench before the start.
    expect(planSummary(base, 'swap')).toMatchObject({ images: 8, scanTime: 1536, leastStart: 0, leastTime: 1536 });
    expect(planSummary(base, 'hop')).toMatchObject({ leastStart: 0, leastTime: 1536 });
    const { hop } = base.workflows;
    const inBooking = { ...base, workflows: { ...base.workflows, hop: { ...hop, prepareAt: 'instrument' as const } } };
    expect(planSummary(inBooking, 'hop')).toMatchObject({ leastStart: 2700, leastTime: 4236 });
    expect(planSummary(base, 'swap').path).toBeCloseTo(4 * (1.28 + 1.024), 12);
  });

  it('is shared out over instruments by region', () => {
    const { base } = load(altered(['strategies:', 'instruments: 3\nstrategies:']));
    expect(planSummary(base, 'swap').leastTime).toBe(2 * 384);
  });
});
