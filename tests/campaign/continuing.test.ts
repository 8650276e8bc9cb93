import { describe, expect, it } from 'vitest';
import { campaignAt, continueCampaign, runCampaign } from '../../src/campaign/campaign.js';
import { LuckTable } from '../../src/chance/luck.js';
import { modelIfSound } from '../support/any-campaign.js';
import { nonEmpty } from '../support/non-empty.js';
import { endOf } from '../support/outcome-end.js';
import { kind, pass, plainModel } from '../support/scene.js';

const LUCK = new LuckTable('any moment');

describe('a campaign that goes on from where it was stopped', () => {
  it('reviews in the morning what was taken at night, before and after the stop', () => {
    const model = modelIfSound({
      plan: { regions: 1, passes: Array.from({ length: 90 }, (_, i) => pass(`image ${i}`, 10)) },
      tips: { sharp: kind({ cause: 'breakage', per: 'image', life: { distribution: 'probability', perUnit: 0.05 } }) },
      noticing: { review: { by: 'operator', time: '1 min', sensitivity: 0.9, falseAlarm: 0.1 } },
      operators: { hours: 'Mo-Fr 09:00-17:00' },
      bookings: { unattended: 'hopping' },
    });
    if (model === null) throw new Error('The scenario is sound.');
    const nights = Array.from({ length: 20 }, (_, replication) => {
      const luck = LUCK.replication(replication);
      const state = campaignAt(model, luck, 20 * 3_600_000_000);
      if (state === null) throw new Error('It is not over by the first night.');
      return { luck, state };
    }).filter(({ state }) => state.instruments[0].unreviewed.length > 5);
    expect(nights.length).toBeGreaterThan(5);
    for (const { luck, state } of nonEmpty(nights)) {
      const whole = runCampaign(model, luck);
      expect(endOf(continueCampaign(model, luck, state), state.instruments[0].at)).toEqual(endOf(whole, model.start));
    }
  });

  it('reviews what waits for it before the next scan, also where an operator is always there', () => {
    const model = plainModel({
      regions: 1,
      passes: Array.from({ length: 6 }, () => ({})),
      noticing: { review: { by: 'operator', time: '60 s', sensitivity: 1 } },
    });
    const luck = LUCK.replication(1);
    const state = campaignAt(model, luck, model.start + 200e6);
    if (state === null) throw new Error('It is not over after two images.');
    const [one] = state.instruments;
    const unreviewed = one.takes.map(({ image, running }) => ({ image, running }));
    const told: string[] = [];
    continueCampaign(
      model,
      luck,
      { instruments: [{ ...one, unreviewed }] },
      {
        step: ({ step }) => told.push(step),
        event: (_, __, what) => told.push(what),
        tip: () => undefined,
      },
    );
    expect(unreviewed.length).toBeGreaterThan(1);
    expect(told.filter((what) => what === 'late review')).toHaveLength(unreviewed.length);
    expect(told.lastIndexOf('late review')).toBeLessThan(told.indexOf('scan'));
  });
});
