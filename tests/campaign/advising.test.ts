import { describe, expect, it } from 'vitest';
import type { Situation, Suspicion } from '../../src/campaign/advisor.js';
import { runCampaign } from '../../src/campaign/campaign.js';
import type { Remedy } from '../../src/campaign/replacing.js';
import type { Raw } from '../support/run.js';
import { laidOver, pass, sceneModel } from '../support/scene.js';
import { Minutes, ScriptedLuck } from '../support/stage.js';
import { nonEmpty } from '../support/non-empty.js';

const MENDING: Raw = {
  plan: { regions: 2, passes: [pass('a', 10)] },
  noticing: { check: { every: 100, time: '3 min', sensitivity: 1, falseAlarm: 0.5 } },
  rules: {
    cleanFirst: { tries: 1, time: '2 min', success: 1 },
    recondition: { tries: 1, time: '4 min', newApex: 0, breaks: 0 },
  },
};

/** What someone does who is asked again and again, and lets be what nothing is said of. */
function advised(
  decide: (situation: Situation, asked: number) => Remedy['what'] | null,
  flaggedImages: readonly number[] = [],
  /** Whether images in doubt are taken again, where the first check fails; null: it passes. */
  retakes: boolean | null = null,
): {
  readonly names: string;
  readonly asked: readonly (Situation & { readonly images: number })[];
  /** Numbers of the images in doubt, each time that somebody is asked about them. */
  readonly doubted: readonly (readonly number[])[];
} {
  const doubted: (readonly number[])[] = [];
  const asked: (Situation & { images: number })[] = [];
  const minutes = new Minutes();
  const advisor = {
    retakes: ({ images }: Suspicion) => {
      doubted.push(images.map(({ number }) => number));
      return retakes ?? true;
    },
    remedy: (situation: Situation): Remedy => {
      asked.push({ ...situation, images: situation.mounted.tip.use.images });
      const what = decide(situation, asked.length) ?? 'nothing';
      return what === 'change' ? { what, why: 'use reached' } : { what };
    },
  };
  const script = {
    review: (_a: number, _b: number, image: number, running: number) =>
      flaggedImages.includes(image) && running === 0 ? 0.1 : 0.9,
    checkJudgement: (_a: number, _b: number, _tip: number, count: number) =>
      retakes !== null && count === 0 ? 0.1 : 0.9,
  };
  const noticing = { review: { by: 'automatic', time: '0 s', sensitivity: 1, falseAlarm: 0.5 } };
  const model = sceneModel(laidOver(MENDING, { noticing }));
  runCampaign(model, new ScriptedLuck(script), minutes, advisor);
  const names = minutes
    .names()
    .filter((name) => /^(scan|check|exchange|clean|recondition|approach|locate)/u.test(name));
  return { names: names.join(' '), asked, doubted };
}

describe('someone who decides about the tip in place of the rules', () => {
  it('is asked before each take, and told how things stand', () => {
    const { names, asked } = advised(() => null);
    expect(names).toBe('locate approach scan 1 locate approach scan 2');
    const last = asked.at(-1);
    expect(last).toMatchObject({ instrument: 0, takes: 0, ruled: { what: 'nothing' } });
    expect(last?.due.number).toBe(1);
    expect(last?.images).toBe(1);
    expect(asked.map(({ time }) => time)).toEqual(asked.map(({ time }) => time).toSorted((a, b) => a - b));
    expect(asked[0].time).toBeLessThan(last?.time ?? 0);
  });

  it.each(['clean', 'recondition', 'check'] as const)('has a %s made where that is wanted', (what) => {
    let isDone = false;
    const { names } = advised(({ due, mounted }) => {
      if (isDone || due.number !== 1 || mounted.tip.use.images < 1) return null;
      isDone = true;
      return what;
    });
    expect(names).toBe(`locate approach scan 1 ${what} locate approach scan 2`);
  });

  it('has the tip changed though the rules would not', () => {
    let isDone = false;
    const { names } = advised(({ due }) => {
      if (isDone || due.number !== 1) return null;
      isDone = true;
      return 'change';
    });
    expect(names).toMatch(/^locate approach scan 1 exchange .*scan 2$/u);
  });

  it('ends the campaign by what goes wrong with it', () => {
    const advice = (): never => {
      throw new Error('no idea');
    };
    expect(() => advised(advice)).toThrow('no idea');
  });

  it('may keep a tip on that the rules would mend or change', () => {
    const { names, asked } = advised(() => null, [0]);
    expect(names).toBe('locate approach scan 1 scan 1 locate approach scan 2');
    expect(asked.map(({ ruled }) => ruled.what)).toContain('clean');
  });

  it('may trust it, after which the rules find nothing to do either', () => {
    const { names, asked } = advised(({ mounted }) => (mounted.judgement === 'sound' ? null : 'trust'), [0]);
    expect(names).toBe('locate approach scan 1 scan 1 locate approach scan 2');
    const trusted = asked.findIndex(({ ruled }) => ruled.what === 'clean');
    expect(asked[trusted].takes).toBe(1);
    expect(nonEmpty(asked.slice(trusted + 1)).every(({ ruled }) => ruled.what === 'nothing')).toBe(true);
  });

  /** Wants one check, after the first image, and goes on with the tip whatever comes of it. */
  const checksOnce = (): ((situation: Situation) => Remedy['what'] | null) => {
    let isDone = false;
    return ({ due, mounted }) => {
      if (isDone || due.number !== 1 || mounted.tip.use.images < 1)
        return mounted.judgement === 'sound' ? null : 'trust';
      isDone = true;
      return 'check';
    };
  };

  it('is asked once about the images that a failed check puts in doubt, and has them taken again', () => {
    const { names, doubted } = advised(checksOnce(), [], true);
    expect(doubted).toEqual([[0]]);
    expect(names).toBe('locate approach scan 1 check scan 1 locate approach scan 2');
  });

  it('may keep them all the same, and is not asked about them again', () => {
    const { names, doubted } = advised(checksOnce(), [], false);
    expect(doubted).toEqual([[0]]);
    expect(names).toBe('locate approach scan 1 check locate approach scan 2');
  });
});
