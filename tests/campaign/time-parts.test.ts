import { describe, expect, it } from 'vitest';
import { TIME_PARTS } from '../../src/campaign/time-parts.js';
import { campaignAt, continueCampaign } from '../../src/campaign/campaign.js';
import { LuckTable } from '../../src/chance/luck.js';
import { type Raw, runMany } from '../support/run.js';
import { after, HOPPING, kind, pass, type Plain, plainModel } from '../support/scene.js';
import { play, type Script } from '../support/stage.js';

/** The parts that some time went to, in minutes. */
function inMinutes(timeParts: readonly number[]): Readonly<Record<string, number>> {
  const parts = TIME_PARTS.map((part, i) => [part, timeParts[i] / 60e6] as const);
  return Object.fromEntries(parts.filter(([, minutes]) => minutes !== 0));
}

const played = (over: Raw, script?: Script) => inMinutes(play(over, script).outcome.timeParts);
const plain = (what: Plain) => inMinutes(runMany(plainModel(what), 'parts', 1)[0].timeParts);

/** The scene begins with 10 min of set-up, 5 of warm-up, 4 of locating and 1 of approach; a swap takes 1 + 3 + 2 + 1 + 1 + 3 and settles for 2. */
describe('what the time went to, by hand', () => {
  it('is what was planned where nothing goes wrong', () => {
    expect(played({ plan: { passes: [pass('a', 10), pass('b', 10)] }, rules: { after: '1 images' } })).toEqual({
      'scans kept': 20,
      'handling as planned': 15 + 11,
      'settling and warming up': 5 + 2,
    });
  });

  it('is scanned in vain where an image drifts too far, and settled where it is waited for', () => {
    // Known answer 12 of the model, 400 s waited: of each sample but the first, two scans of 300 s are lost, of the first three.
    const drifting: Plain = {
      regions: 1,
      samples: 5,
      passes: [{ lines: 300, driftTolerance: '50 nm', accept: 0.8 }],
      steps: { settle: 400 },
      more: { drift: { handling: { rate: '1 nm/s', geometricSd: 1, decay: '10 min' } } },
    };
    expect(plain(drifting)).toEqual({
      'scans kept': 25,
      'settling and warming up': (4 * 400) / 60,
      'scans lost to drift': (3 + 4 * 2) * 5,
    });
  });

  it('is lost to loss of tracking where the same tip would do at a slower pace, however it is replaced then', () => {
    // 1/√(1 + (v/(d·f))²) with v = 2·300 nm·0.1 Hz, d = 10 nm and f = 24 Hz is 0.970, and 0.894 at twice the pace. A tip contaminated after
    // half an image leaves 0.95 of it: 0.850 is accepted, which 0.8497 is not.
    const demand = { neededResolution: '10 nm', trackingBandwidth: '24 Hz', size: '300 nm', accept: 0.85 };
    const contaminated = {
      plan: { passes: [pass('a', 10, demand), pass('b', 10, demand)] },
      tips: { sharp: kind(after(0.5, { cause: 'fouling', quality: 0.95, clears: 'never' })) },
    };
    expect(played({ ...contaminated, pace: { scan: 2 } })).toEqual({
      'scans kept': 10,
      'handling as planned': 15,
      'settling and warming up': 5 + 2,
      'scans lost to loss of tracking': 5,
      'cleaning and replacing flagged tips': 11,
    });
    expect(played(contaminated)).toEqual({
      'scans kept': 20,
      'handling as planned': 15,
      'settling and warming up': 5,
    });
  });

  it('is lost to a tip that breaks, and to cleaning and replacing it', () => {
    const breaking = {
      plan: { passes: [pass('a', 10), pass('b', 10)] },
      tips: { sharp: kind(after(1.5, { cause: 'breakage' })) },
      rules: { cleanFirst: { tries: 1, time: '7 min', success: 0.5 } },
    };
    expect(played(breaking)).toEqual({
      'scans kept': 20,
      'handling as planned': 15,
      'settling and warming up': 5 + 2,
      // Image b, and again after the cleaning.
      'scans lost to spoiled tips': 20,
      'cleaning and replacing flagged tips': 7 + 11,
    });
  });

  it('is lost to what is flagged though it is good', () => {
    // Four attempts, each of them flagged in error.
    const doubted = { noticing: { review: { falseAlarm: 0.2 } } };
    expect(played(doubted, { review: () => 0.1 })).toMatchObject({ 'good scans lost': 40 });
  });

  it('is lost to tries of finding a place again, and of preparing a specimen, that failed', () => {
    const twice: Script = { stepSuccess: (_instrument, _step, occurrence) => (occurrence < 2 ? 0.9 : 0.1) };
    const again = { plan: { passes: [pass('a', 10), pass('b', 10)] }, rules: { after: '1 images' } };
    const relocating = { workflows: { swap: { steps: { relocate: { fixed: '3 min', success: 0.5 } } } } };
    expect(played({ ...again, ...relocating }, twice)).toMatchObject({
      'handling as planned': 15 + 11,
      'tries that failed': 2 * 3,
    });
    const preparing = {
      workflows: { hop: { prepareAt: 'instrument', steps: { prepare: { fixed: '30 min', success: 0.5 } } } },
    };
    expect(played({ ...HOPPING, ...preparing }, twice)).toMatchObject({
      'handling as planned': 30 + 15,
      'tries that failed': 60,
    });
  });

  it('is lost to an exchange that breaks what it mounts, by hand and of a chip', () => {
    const again = { plan: { passes: [pass('a', 10), pass('b', 10)] }, rules: { after: '1 images' } };
    const once: Script = { mishandling: (_instrument, _step, occurrence) => (occurrence < 1 ? 0.1 : 0.9) };
    expect(played({ ...again, workflows: { swap: { mishandling: { probability: 0.2 } } } }, once)).toMatchObject({
      'handling as planned': 15 + 11,
      'mishandled exchanges': 3 + 2 + 1,
    });
    const chips = { mishandling: { probability: 0.2 }, chip: { sites: { sharp: 1 } } };
    expect(played({ ...again, ...HOPPING, workflows: { hop: { ...chips, prepareAt: 'bench' } } }, once)).toMatchObject({
      // Set-up, locate, approach; retract, chip exchange, offset, approach, resonance and register.
      'handling as planned': 15 + 1 + 15 + 1 + 1 + 1 + 2,
      'mishandled exchanges': 15 + 1 + 1 + 1,
    });
  });
});

describe('a campaign that goes on', () => {
  it('counts no time from before', () => {
    const model = plainModel({ regions: 5, steps: { setUp: 60, locate: 10 } });
    const luck = new LuckTable('parts').replication(1);
    const state = campaignAt(model, luck, model.start + 200e6);
    if (state === null) throw new Error('It is not over by then.');
    const { timeParts, split } = continueCampaign(model, luck, state);
    // Two of five images are there by then.
    expect(inMinutes(timeParts)).toEqual({ 'scans kept': 3, 'handling as planned': 0.5 });
    expect(split[0].slice(0, 2)).toEqual([180e6, 0]);
  });
});
