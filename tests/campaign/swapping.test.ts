import { describe, expect, it } from 'vitest';
import { after, kind, pass } from '../support/scene.js';
import { afterScan, play } from '../support/stage.js';

const TWO_REGIONS = { regions: 2, passes: [pass('a', 10), pass('b', 10)] };
const BREAKS_IN_SECOND = { sharp: kind(after(1.5, { cause: 'breakage' })) };
const SWAP = ['exchange', 'align', 'resonance'];

describe('swapping and relocating, step by step', () => {
  it('starts with set-up, warm-up, locate and approach, and one tip', () => {
    const { lines, outcome } = play({});
    expect(lines).toEqual([
      'Mon 00:00 setUp',
      'Mon 00:10 * mounted',
      'Mon 00:10 warmUp',
      'Mon 00:15 locate',
      'Mon 00:19 approach',
      'Mon 00:20 scan 1',
      'Mon 00:30 review',
      'Mon 00:30 * went',
    ]);
    expect(outcome).toMatchObject({ totalTime: 1800, tips: 1, probes: 1, chips: 0, specimens: 0, takes: 1, good: 1 });
  });

  it('comes to a new region by retract, locate and approach, without settling', () => {
    const { names } = play({ plan: { regions: 2 } });
    expect(afterScan(names, 1)).toEqual(['review', 'retract', 'locate', 'approach', 'scan 2', 'review']);
  });

  it('comes back to a region by retract, approach and relocate', () => {
    // By kind: tip-first visits both regions with the first kind, then comes back with the second, whose own change falls on the first return.
    const { names } = play({
      plan: { order: 'tip-first', regions: 2, passes: [pass('a', 10), pass('b', 10, { tip: 'soft' })] },
      tips: { soft: kind() },
    });
    expect(afterScan(names, 3)).toEqual(['review', 'retract', 'approach', 'relocate', 'scan 4', 'review']);
  });

  it('changes a flagged tip by retract, exchange, align, resonance, approach, relocate and settle', () => {
    const { lines, outcome } = play({ plan: { passes: [pass('a', 10), pass('b', 10)] }, tips: BREAKS_IN_SECOND });
    expect(lines.slice(6)).toEqual([
      'Mon 00:30 review',
      'Mon 00:30 scan 2',
      'Mon 00:35 * breakage',
      'Mon 00:40 review',
      'Mon 00:40 * flagged',
      'Mon 00:40 retract',
      'Mon 00:41 * went',
      'Mon 00:41 exchange',
      'Mon 00:44 * mounted',
      'Mon 00:44 align',
      'Mon 00:46 resonance',
      'Mon 00:47 approach',
      'Mon 00:48 relocate',
      'Mon 00:51 settle',
      'Mon 00:53 scan 2',
      'Mon 01:03 review',
      'Mon 01:03 * went',
    ]);
    expect(outcome.tipRecords.map(({ number, went }) => `${number} ${went}`)).toEqual([
      '0 flagged by an image',
      '1 end of the experiment',
    ]);
  });

  it('makes one change of a tip and a first visit: locate and approach in place of approach and relocate, settling still', () => {
    const { names } = play({ plan: TWO_REGIONS, rules: { after: '2 images' } });
    expect(afterScan(names, 2)).toEqual([
      'review',
      'retract',
      ...SWAP,
      'locate',
      'approach',
      'settle',
      'scan 3',
      'review',
      'scan 4',
      'review',
    ]);
  });

  it('makes one change of a tip and a later visit', () => {
    const { names } = play({
      plan: { order: 'tip-first', regions: 2, passes: [pass('a', 10), pass('b', 10, { tip: 'soft' })] },
      tips: { soft: kind() },
    });
    expect(afterScan(names, 2).slice(0, 9)).toEqual([
      'review',
      'retract',
      ...SWAP,
      'approach',
      'relocate',
      'settle',
      'scan 3',
    ]);
  });

  it('parks a tip taken off only for another kind and uses it again, one of each kind', () => {
    const { names, outcome } = play({
      plan: { regions: 2, passes: [pass('a', 10), pass('b', 10, { tip: 'soft' })] },
      tips: { soft: kind() },
    });
    expect(outcome).toMatchObject({ tips: 2, probes: 2, totalTime: 60 * (20 + 4 * 10 + 3 * 13 + 1) });
    expect(names.filter((name) => name === 'exchange')).toHaveLength(3);
  });

  it('ends the campaign, unfinished, when a hundred tips in a row have come to nothing', () => {
    const { lines, outcome } = play(
      {
        plan: { passes: [pass('a', 10), pass('b', 10)] },
        tips: BREAKS_IN_SECOND,
        workflows: { swap: { mishandling: { probability: 0.2 } } },
      },
      { mishandling: () => 0.1 },
    );
    expect(outcome).toMatchObject({ isFinished: false, good: 1, tips: 101 });
    expect(lines.filter((line) => line.endsWith('mounted'))).toHaveLength(101);
  });

  it('finds a mishandled tip at resonance and does exchange to resonance again with a new one', () => {
    const { names, outcome } = play(
      {
        plan: { passes: [pass('a', 10), pass('b', 10)] },
        tips: BREAKS_IN_SECOND,
        workflows: { swap: { mishandling: { probability: 0.2 } } },
      },
      { mishandling: (_instrument, _step, occurrence) => (occurrence < 2 ? 0.1 : 0.9) },
    );
    expect(afterScan(names, 2)).toEqual([
      'review',
      'retract',
      ...SWAP,
      ...SWAP,
      ...SWAP,
      'approach',
      'relocate',
      'settle',
      'scan 2',
      'review',
    ]);
    expect(
      outcome.tipRecords.map(({ number, went, spoiled }) => [number, went, spoiled?.cause, spoiled?.time]),
    ).toEqual([
      [0, 'flagged by an image', 'breakage', 60e6 * 35],
      [1, 'mishandled', 'mishandling', 60e6 * 47],
      [2, 'mishandled', 'mishandling', 60e6 * 53],
      [3, 'end of the experiment', undefined, undefined],
    ]);
    expect(outcome).toMatchObject({ tips: 4, probes: 4 });
  });

  it('loses a parked tip to mishandling as it would a new one, and takes a new one then', () => {
    const { outcome } = play(
      {
        plan: { regions: 2, passes: [pass('a', 10), pass('b', 10, { tip: 'soft' })] },
        tips: { soft: kind() },
        workflows: { swap: { mishandling: { probability: 0.2 } } },
      },
      // Exchange 0 puts the first soft tip on, exchange 1 the parked sharp one.
      { mishandling: (_instrument, _step, occurrence) => (occurrence === 1 ? 0.1 : 0.9) },
    );
    expect(outcome.tipRecords.map((tip) => `${tip.kind} ${tip.number} ${tip.went}`)).toEqual([
      'sharp 0 mishandled',
      'soft 0 end of the experiment',
      'sharp 1 end of the experiment',
    ]);
  });

  it('is mishandled the more often, the more its hands hurry', () => {
    // 0.1 · 2² = 0.4: a draw of 0.3 breaks the tip only at twice the pace. At the start nothing is mishandled.
    const at = (hands: number) =>
      play(
        {
          plan: { passes: [pass('a', 10), pass('b', 10)] },
          tips: BREAKS_IN_SECOND,
          pace: { hands },
          workflows: { swap: { mishandling: { probability: 0.1, paceExponent: 2 } } },
        },
        { mishandling: (_instrument, _step, occurrence) => (occurrence === 0 ? 0.3 : 0.99) },
      ).outcome;
    expect(at(1).tips).toBe(2);
    expect(at(2).tips).toBe(3);
  });

  it('does the manual steps alone the faster, the more its hands hurry', () => {
    const { outcome } = play({ pace: { hands: 2 } });
    expect(outcome.totalTime).toBe(60 * (5 + 5 + 2 + 1 + 10));
  });

  it('relocates until it succeeds, drawing each try anew', () => {
    const { names } = play(
      {
        plan: { passes: [pass('a', 10), pass('b', 10)] },
        rules: { after: '1 image' },
        workflows: { swap: { steps: { relocate: { fixed: '3 min', success: 0.6 } } } },
      },
      { stepSuccess: (_instrument, _step, occurrence) => (occurrence < 2 ? 0.7 : 0.5) },
    );
    expect(afterScan(names, 1)).toEqual([
      'review',
      'retract',
      ...SWAP,
      'approach',
      'relocate',
      'relocate',
      'relocate',
      'settle',
      'scan 2',
      'review',
    ]);
  });

  it('exposes the tip at the end of each approach, that of the start too', () => {
    const life = { distribution: 'probability', perUnit: 0.4 };
    const { outcome } = play(
      { tips: { sharp: kind({ cause: 'breakage', per: 'approach', life }) } },
      // Broken at its first approach below 0.4; the first two tips are.
      { life: (_instrument, _kind, tip) => (tip < 2 ? 0.3 : 0.9) },
    );
    expect(outcome.tipRecords.map(({ use, spoiled }) => [use.approaches, spoiled?.time])).toEqual([
      [1, 60e6 * 20],
      [1, 60e6 * 38],
      [1, undefined],
    ]);
    expect(outcome.takes).toBe(3);
  });
});
