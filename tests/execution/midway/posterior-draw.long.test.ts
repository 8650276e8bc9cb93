import { describe, expect, it } from 'vitest';
import { campaignAt, continueCampaign, runCampaign } from '../../../src/campaign/campaign.js';
import type { KnownCampaign } from '../../../src/execution/midway/known.js';
import type { CampaignModel } from '../../../src/campaign/model.js';
import { observed } from '../../../src/execution/midway/observed.js';
import { posteriorDraw } from '../../../src/execution/midway/posterior-draw.js';
import { LuckTable } from '../../../src/chance/luck.js';
import { expectMean } from '../../support/agreement.js';
import { average, variance } from '../../support/chance.js';
import { type Plain, plainModel } from '../../support/scene.js';

const THEN = new LuckTable('what has been');
const ON = new LuckTable('what comes');

/**
 * Tips that age (Weibull, shape 3) and foul, unnoticed by one review in five, so that what has befallen the tip that is on
 * is not known, and its age counts.
 */
function ageing(workflow: 'swap' | 'hop', more: object = {}, plan: Partial<Plain> = {}): CampaignModel {
  return plainModel({
    workflow,
    regions: 24,
    ...plan,
    hazards: [
      { cause: 'breakage', per: 'image', life: { distribution: 'weibull', shape: 3, scale: '9 images' } },
      {
        cause: 'fouling',
        per: 'image',
        life: { distribution: 'exponential', mean: '15 images' },
        quality: 0.5,
        clears: 3,
      },
      { cause: 'breakage', per: 'approach', life: { distribution: 'probability', perUnit: 0.01 } },
    ],
    steps: {
      setUp: 600,
      locate: 60,
      approach: 30,
      exchange: 900,
      chipExchange: 900,
      prepare: 1200,
      settle: 120,
      changeSample: 900,
    },
    noticing: {
      review: { by: 'automatic', time: '10 s', sensitivity: 0.8, falseAlarm: 0.05 },
      attempts: 1000,
      ...more,
    },
  });
}

/**
 * As above, with a check after every fourth image, whose failure makes images suspect. It finds every spoiled tip: a
 * campaign is taken up as if a passed check were proof.
 */
const CHECKED = {
  check: { every: 4, time: '1 min', sensitivity: 1, falseAlarm: 0.05, repeatSuspects: true },
};

/** As much to scan, on three samples of which one has regions of its own. */
const THREE = { samples: [{ name: 'a' }, { name: 'b', regions: 10 }, { name: 'c' }], regions: 7 };

/** Nothing but wear, which everyone sees: how long the tip that is on still lasts follows from its age alone. */
const WEAR = plainModel({
  regions: 30,
  hazards: [{ cause: 'breakage', per: 'image', life: { distribution: 'weibull', shape: 3, scale: '20 images' } }],
  steps: { exchange: 900 },
});

interface Gap {
  readonly time: number;
  readonly tips: number;
  readonly takes: number;
}

/**
 * Campaigns stopped at moments of their own (which know nothing of how they end), told as people would know them, and
 * continued on other luck: by how much each ends otherwise than it would have. Both go on from the same knowledge, so the
 * expected gaps are exactly 0.
 */
function gaps(
  model: CampaignModel,
  n: number,
  told: (known: KnownCampaign) => KnownCampaign = (known) => known,
): Gap[] {
  const typical = average(Array.from({ length: 40 }, (_, i) => runCampaign(model, ON.replication(i)).elapsed[0]));
  return Array.from({ length: n }, (_, replication): Gap[] => {
    const luck = THEN.replication(replication);
    const moment = model.start + Math.floor(typical * (0.1 + 0.6 * ((replication * 0.618034) % 1)));
    const state = campaignAt(model, luck, moment);
    if (state === null) return [];
    const whole = runCampaign(model, luck);
    const next = ON.replication(replication);
    const { state: from } = posteriorDraw(model, told(observed(model, state)), next, () => 1);
    const on = continueCampaign(model, next, from);
    const [{ at, tips }] = state.instruments;
    const before = tips.mountings.reduce((sum, [, count]) => sum + count, 0);
    return [
      {
        time: (at - model.start) / 1e6 + on.totalTime - whole.totalTime,
        tips: before + on.tips - whole.tips,
        takes: on.takes - whole.takes,
      },
    ];
  }).flat();
}

/** The tip that is on is taken for a new one. */
function forgetful(known: KnownCampaign): KnownCampaign {
  const use = { images: 0, path: 0, hours: 0, approaches: 0 };
  return {
    ...known,
    instruments: known.instruments.map((instrument) => ({
      ...instrument,
      tip: instrument.tip === null ? null : { ...instrument.tip, use, since: [], isChecked: false },
    })),
  };
}

/*
 * 19 comparisons of means in all, of 600 campaigns or more each: fails by chance less than once in a million seeds
 * (tests/support/agreement.ts).
 */
describe('a campaign stopped at any moment and continued from what is known of it', () => {
  it.each([
    ['swap', ageing('swap'), 1500, 1],
    ['hop', ageing('hop'), 1500, 1],
    ['swap, with suspect images', ageing('swap', CHECKED), 1500, 1],
    ['swap, with wear alone', WEAR, 600, 0.5],
    ['swap, three samples', ageing('swap', {}, THREE), 1000, 1.25],
    ['hop, three samples', ageing('hop', {}, THREE), 1000, 1.25],
  ] as const)('has the distribution of the uninterrupted one (%s)', (_name, model, campaigns, scale) => {
    const found = gaps(model, campaigns);
    expect(found.length).toBeGreaterThan(0.95 * campaigns);
    expectMean(
      found.map(({ time }) => time),
      0,
      70 * scale,
      'total time (s)',
    );
    expectMean(
      found.map(({ tips }) => tips),
      0,
      0.07 * scale,
      'tips',
    );
    expectMean(
      found.map(({ takes }) => takes),
      0,
      0.1 * scale,
      'takes',
    );
  });

  it('has another one where the age of its tip is forgotten', () => {
    const tips = gaps(WEAR, 600, forgetful).map((gap) => gap.tips);
    expect(average(tips)).toBeLessThan(-6.5 * Math.sqrt(variance(tips) / tips.length));
  });
});
