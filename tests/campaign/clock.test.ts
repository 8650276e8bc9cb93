import { expect, it } from 'vitest';
import { brokenLaws } from '../fuzz/laws.js';
import type { Raw } from '../support/run.js';
import { after, kind, pass, sceneModel } from '../support/scene.js';
import { play } from '../support/stage.js';

const YEAR = 365.25 * 86_400;
const LONGEST: readonly (readonly [string, Raw])[] = [
  ['scans', { plan: { regions: 1000, passes: [pass('slow', 166_000)] } }],
  [
    'steps',
    {
      plan: { regions: 400, passes: [pass('image', 10)] },
      tips: { sharp: kind(after(1.5, { cause: 'breakage' })) },
      workflows: { swap: { steps: { exchange: '8300 h' } } },
    },
  ],
  ['scans of two instruments', { instruments: 2, plan: { regions: 2000, passes: [pass('slow', 166_000)] } }],
];

it.each(LONGEST)(
  'a campaign whose %s go on for longer than the clock does ends unfinished, with its books in order',
  (_, over) => {
    const { outcome } = play(over);
    expect(outcome.isFinished).toBe(false);
    expect(outcome.missing).toBeGreaterThan(0);
    expect(outcome.totalTime).toBeGreaterThan(280 * YEAR);
    expect(brokenLaws(sceneModel(over), outcome)).toEqual([]);
  },
);
