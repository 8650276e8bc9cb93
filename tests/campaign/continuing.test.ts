import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { campaignAt, continueCampaign, runCampaign } from '../../src/campaign/campaign.js';
import type { CampaignModel } from '../../src/campaign/model.js';
import type { Outcome } from '../../src/campaign/outcome.js';
import type { CampaignState } from '../../src/campaign/state.js';
import { LuckTable } from '../../src/chance/luck.js';
import { modelIfSound, scenario } from '../support/any-campaign.js';
import { kind, pass, plainModel } from '../support/scene.js';
import { nonEmpty } from '../support/non-empty.js';

const LUCK = new LuckTable('any moment');
const CASES = 1500;

interface Stopped {
  readonly model: CampaignModel;
  readonly replication: number;
  readonly whole: Outcome;
  readonly state: CampaignState;
}

/**
 * Whether nothing is under way but what the state tells of: with several instruments one stands still while another is in
 * the middle of a step, and an operator who is reviewing takes of absent hours starts the review at hand again.
 */
function isAtRest(model: CampaignModel, { instruments }: CampaignState): boolean {
  return (
    instruments.length === 1 &&
    instruments.every((one) => one.unreviewed.length === 0 || !model.presence.isOpen(one.at))
  );
}

/** Sound scenarios of all kinds, each stopped at a moment of its own within its campaign. */
const STOPPED: readonly Stopped[] = fc.sample(scenario, { seed: 21, numRuns: CASES }).flatMap((over, replication) => {
  const model = modelIfSound({ ...over, instruments: 1 });
  if (model === null) return [];
  const whole = runCampaign(model, LUCK.replication(replication));
  const share = ((replication * 37) % 100) / 100;
  const state = campaignAt(model, LUCK.replication(replication), model.start + Math.floor(whole.elapsed[0] * share));
  return state !== null && isAtRest(model, state) ? [{ model, replication, whole, state }] : [];
});

/** Everything that an outcome says of the end, and not of how long it took or what it cost. */
function endOf(outcome: Outcome, start: number) {
  return {
    ends: outcome.elapsed.map((elapsed) => start + elapsed),
    confirmed: Math.round((start / 1e6 + outcome.confirmedAt) * 1e6),
    isFinished: outcome.isFinished,
    takesOf: outcome.takesOf,
    images: outcome.images.map(({ kept, fate }) => [fate, kept?.quality, kept?.running]),
    tally: [
      outcome.yield,
      outcome.apparentYield,
      outcome.good,
      outcome.undetectedBad,
      outcome.givenUp,
      outcome.missing,
    ],
    cut: outcome.cut === null ? null : { ...outcome.cut, tips: 0 },
  };
}

describe('a campaign that goes on from where it was stopped', () => {
  it('is tried at many moments of many kinds of campaign', () => {
    expect(STOPPED.length).toBeGreaterThan(300);
    const states = STOPPED.map(({ state }) => state.instruments[0]);
    expect(states.filter(({ tips }) => tips.mounted?.judgement !== 'sound').length).toBeGreaterThan(5);
    expect(states.filter(({ tips }) => tips.parked.length > 0).length).toBeGreaterThan(5);
    expect(states.filter(({ chip }) => chip !== null).length).toBeGreaterThan(20);
    expect(states.filter(({ worklist }) => worklist.repeats.length > 0).length).toBeGreaterThan(1);
  });

  it('ends, with common random numbers, exactly as if it had never been stopped, to the microsecond', () => {
    for (const { model, replication, whole, state } of STOPPED) {
      const on = continueCampaign(model, LUCK.replication(replication), state);
      expect(endOf(on, state.instruments[0].at)).toEqual(endOf(whole, model.start));
      expect(on.tipRecords).toEqual(whole.tipRecords.slice(whole.tipRecords.length - on.tipRecords.length));
    }
  });

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

  it('counts time, tips and cost from there on', () => {
    for (const { model, replication, whole, state } of STOPPED) {
      const on = continueCampaign(model, LUCK.replication(replication), state);
      const [{ at, tips }] = state.instruments;
      const before = tips.mountings.reduce((sum, [, count]) => sum + count, 0);
      expect(on.tips + before).toBe(whole.tips);
      expect(on.totalTime).toBeCloseTo(whole.totalTime - (at - model.start) / 1e6, 6);
      expect(on.cost).toBeLessThanOrEqual(whole.cost + 1e-9);
    }
  });

  it('has a state of plain data, which a file gives back unchanged', () => {
    for (const { model, replication, state } of nonEmpty(STOPPED.slice(0, 20))) {
      const text = JSON.stringify(state);
      const back = z.custom<CampaignState>((value) => typeof value === 'object').parse(JSON.parse(text));
      expect(JSON.stringify(continueCampaign(model, LUCK.replication(replication), back))).toBe(
        JSON.stringify(continueCampaign(model, LUCK.replication(replication), state)),
      );
    }
  });

  it('is over where it was through, or could do no more, by then', () => {
    const [{ model, replication, whole }] = STOPPED;
    const after = model.start + whole.elapsed[0] + 1e12;
    expect(campaignAt(model, LUCK.replication(replication), after)).toBeNull();
  });
});
