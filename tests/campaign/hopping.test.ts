import { describe, expect, it } from 'vitest';
import type { Raw } from '../support/run.js';
import { HOPPING, kind, laidOver, pass } from '../support/scene.js';
import { afterScan, play } from '../support/stage.js';

const EACH_IMAGE_A_TIP = { rules: { after: '1 image' } };
const images = (count: number) => Array.from({ length: count }, (_, i) => pass(`image ${i + 1}`, 10));
const hop = (over: Raw, script = {}) => play(laidOver(HOPPING, over), script);
const LOOK = ['approach', 'resonance', 'settle', 'register'];

/** The steps between scans, a row a change. */
function changes(names: readonly string[]): readonly (readonly string[])[] {
  const rows: string[][] = [];
  for (const name of names) {
    if (name.startsWith('scan ')) rows.push([]);
    else if (name !== 'review') rows.at(-1)?.push(name);
  }
  return rows.filter((row) => row.length > 0);
}

describe('hopping, step by step', () => {
  it('prepares the specimen, then starts as swapping does', () => {
    const { lines, outcome } = hop({});
    expect(lines).toEqual([
      'Mon 00:00 prepare',
      'Mon 00:30 setUp',
      'Mon 00:40 * mounted',
      'Mon 00:40 warmUp',
      'Mon 00:45 locate',
      'Mon 00:49 approach',
      'Mon 00:50 scan 1',
      'Mon 01:00 review',
      'Mon 01:00 * went',
    ]);
    expect(outcome).toMatchObject({ tips: 1, probes: 0, chips: 1, specimens: 1 });
  });

  it('prepares until it succeeds, one specimen', () => {
    const { lines, outcome } = hop(
      { workflows: { hop: { steps: { prepare: { fixed: '30 min', success: 0.5 } } } } },
      { stepSuccess: (_instrument: number, _step: number, occurrence: number) => (occurrence < 2 ? 0.6 : 0.4) },
    );
    expect(lines.filter((line) => line.endsWith('prepare'))).toEqual([
      'Mon 00:00 prepare',
      'Mon 00:30 prepare',
      'Mon 01:00 prepare',
    ]);
    expect(outcome.specimens).toBe(1);
  });

  it('hops by retract, offset, approach, resonance, settle and register', () => {
    const { names } = hop({ plan: { passes: images(2) }, ...EACH_IMAGE_A_TIP });
    expect(changes(names)).toEqual([['retract', 'offset', ...LOOK]]);
  });

  it('registers until it succeeds', () => {
    const { names } = hop(
      {
        plan: { passes: images(2) },
        ...EACH_IMAGE_A_TIP,
        workflows: { hop: { steps: { register: { fixed: '2 min', success: 0.6 } } } },
      },
      { stepSuccess: (_instrument: number, _step: number, occurrence: number) => (occurrence < 2 ? 0.6 : 0.59) },
    );
    expect(changes(names)).toEqual([['retract', 'offset', ...LOOK, 'register', 'register']]);
  });

  it('never moves coarsely for the range where no fine range is given', () => {
    const { names } = hop({ plan: { passes: images(6) }, ...EACH_IMAGE_A_TIP });
    expect(names).not.toContain('coarseMove');
  });

  it.each([
    // floor(250 / 100) = 2, floor(300 / 100) = 3 also where the quotient falls short by rounding, and never less than 1.
    ['250 um', '100 um', [2, 4, 6]],
    ['0.3 um', '0.1 um', [3, 6]],
    ['50 um', '100 um', [1, 2, 3, 4, 5, 6]],
  ])('moves coarsely at each hop that the fine range %s does not hold at a pitch of %s', (fineRange, pitch, coarse) => {
    const { names } = hop({
      plan: { passes: images(7) },
      ...EACH_IMAGE_A_TIP,
      workflows: { hop: { fineRange, chip: { pitch } } },
    });
    const hops = changes(names);
    expect(hops).toHaveLength(6);
    hops.forEach((row, i) => {
      expect(row).toEqual(['retract', 'offset', ...(coarse.includes(i + 1) ? ['coarseMove'] : []), ...LOOK]);
    });
  });

  it('passes a dead site by offset and approach, and the next hop its retract; it uses no tip', () => {
    const { names, outcome } = hop(
      { plan: { passes: images(2) }, ...EACH_IMAGE_A_TIP, workflows: { hop: { chip: { dead: { sharp: 0.3 } } } } },
      // The first site of the campaign is never dead, whatever the draw.
      { dead: (_instrument: number, _kind: number, _chip: number, site: number) => (site < 3 ? 0.1 : 0.9) },
    );
    expect(changes(names)).toEqual([
      ['retract', 'offset', 'approach', 'retract', 'offset', 'approach', 'retract', 'offset', ...LOOK],
    ]);
    expect(outcome.tipRecords.map(({ number, use }) => [number, use.approaches])).toEqual([
      [0, 1],
      [1, 1],
    ]);
  });

  it('counts hops to dead sites towards the fine range, and moves coarsely once at most in a change', () => {
    const { names } = hop(
      {
        plan: { passes: images(3) },
        ...EACH_IMAGE_A_TIP,
        workflows: { hop: { fineRange: '200 um', chip: { dead: { sharp: 0.3 }, sites: { sharp: 20 } } } },
      },
      // Sites 1 to 5 are dead: the second hop is due, and so would be the fourth and sixth of the same change.
      {
        dead: (_instrument: number, _kind: number, _chip: number, site: number) => (site >= 1 && site <= 5 ? 0.1 : 0.9),
      },
    );
    const dead = ['approach', 'retract', 'offset'];
    expect(changes(names)[0]).toEqual([
      'retract',
      'offset',
      ...dead,
      'coarseMove',
      ...dead,
      ...dead,
      ...dead,
      ...dead,
      ...LOOK,
    ]);
    // Four hops since the coarse move: overdue at the next change.
    expect(changes(names)[1]).toEqual(['retract', 'offset', 'coarseMove', ...LOOK]);
  });

  it('moves coarsely at each change of kind, to a parked site too, which is never dead', () => {
    const { names, outcome } = hop(
      {
        plan: { regions: 2, passes: [pass('a', 10), pass('b', 10, { tip: 'soft' })] },
        tips: { soft: kind() },
        workflows: { hop: { chip: { sites: { sharp: 1, soft: 1 }, dead: { sharp: 0.9 } } } },
      },
      { dead: (_instrument: number, kindOf: number) => (kindOf === 0 ? 0.1 : 0.95) },
    );
    const coarse = ['retract', 'offset', 'coarseMove'];
    expect(changes(names)).toEqual([
      [...coarse, ...LOOK],
      [...coarse, 'locate', 'approach', 'resonance', 'settle'],
      [...coarse, ...LOOK],
    ]);
    expect(outcome).toMatchObject({ tips: 2, chips: 1 });
  });

  it('exchanges the chip where the kind has no site left, all kinds new; what was parked goes with its chip', () => {
    const { names, outcome } = hop({
      plan: { passes: [pass('a', 10), pass('b', 10, { tip: 'soft' }), pass('c', 10, { tip: 'soft' }), pass('d', 10)] },
      tips: { soft: kind() },
      rules: { after: '1 image' },
      workflows: { hop: { chip: { sites: { sharp: 2, soft: 1 } } } },
    });
    expect(changes(names)).toEqual([
      ['retract', 'offset', 'coarseMove', ...LOOK],
      ['retract', 'chipExchange', 'offset', ...LOOK],
      ['retract', 'offset', 'coarseMove', ...LOOK],
    ]);
    expect(outcome).toMatchObject({ chips: 2, tips: 4 });
    const parked = hop({
      plan: {
        passes: [
          pass('a', 10),
          pass('b', 10, { tip: 'soft' }),
          pass('c', 10, { tip: 'soft', critical: true }),
          pass('d', 10),
        ],
      },
      tips: { soft: kind() },
      workflows: { hop: { chip: { sites: { sharp: 2, soft: 1 } } } },
    });
    expect(parked.outcome.tipRecords.map((tip) => `${tip.kind} ${tip.number} ${tip.went}`)).toEqual([
      'sharp 0 its chip was exchanged',
      'soft 0 its chip was exchanged',
      'sharp 1 end of the experiment',
      'soft 1 end of the experiment',
    ]);
  });

  it('counts the hops to the next coarse move from a chip exchange', () => {
    const { names } = hop({
      plan: { passes: images(6) },
      ...EACH_IMAGE_A_TIP,
      workflows: { hop: { fineRange: '300 um', chip: { sites: { sharp: 3 } } } },
    });
    expect(changes(names).map((row) => row.filter((name) => name === 'chipExchange' || name === 'coarseMove'))).toEqual(
      [[], [], ['chipExchange'], [], ['coarseMove']],
    );
  });

  it('finds a mishandled chip at resonance, spends it, and does chip exchange to resonance again', () => {
    const { names, outcome } = hop(
      {
        plan: { passes: images(2) },
        ...EACH_IMAGE_A_TIP,
        workflows: { hop: { mishandling: { probability: 0.2 }, chip: { sites: { sharp: 1 } } } },
      },
      { mishandling: (_instrument: number, _step: number, occurrence: number) => (occurrence === 0 ? 0.1 : 0.9) },
    );
    const exchange = ['chipExchange', 'offset', 'approach', 'resonance'];
    expect(changes(names)).toEqual([['retract', ...exchange, ...exchange, 'settle', 'register']]);
    expect(outcome.tipRecords.map(({ number, went }) => `${number} ${went}`)).toEqual([
      '0 use reached',
      '1 mishandled',
      '2 end of the experiment',
    ]);
    expect(outcome).toMatchObject({ tips: 3, chips: 3 });
  });

  it('locates a new region once, before the first approach of the change, also over dead sites', () => {
    const { names } = hop(
      { plan: { regions: 2 }, ...EACH_IMAGE_A_TIP, workflows: { hop: { chip: { dead: { sharp: 0.3 } } } } },
      { dead: (_instrument: number, _kind: number, _chip: number, site: number) => (site === 1 ? 0.1 : 0.9) },
    );
    expect(changes(names)).toEqual([
      ['retract', 'offset', 'locate', 'approach', 'retract', 'offset', 'approach', 'resonance', 'settle'],
    ]);
    expect(afterScan(names, 2)).toEqual(['review']);
  });

  it('comes back to a region by registering', () => {
    const { names } = hop({
      plan: { order: 'tip-first', regions: 2, passes: [pass('a', 10), pass('b', 10, { tip: 'soft' })] },
      tips: { soft: kind() },
      workflows: { hop: { chip: { sites: { sharp: 2, soft: 2 } } } },
    });
    expect(changes(names)).toEqual([
      ['retract', 'locate', 'approach'],
      ['retract', 'offset', 'coarseMove', ...LOOK],
      ['retract', 'approach', 'register'],
    ]);
  });
});
