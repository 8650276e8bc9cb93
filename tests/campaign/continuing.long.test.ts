import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { campaignAt, continueCampaign, runCampaign } from '../../src/campaign/campaign.js';
import type { CampaignModel } from '../../src/campaign/model.js';
import type { Outcome } from '../../src/campaign/outcome.js';
import type { CampaignState } from '../../src/campaign/state.js';
import { LuckTable } from '../../src/chance/luck.js';
import { modelIfSound, scenario } from '../support/any-campaign.js';
import { endOf } from '../support/outcome-end.js';
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
