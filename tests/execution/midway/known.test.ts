import { NO_DRIFT } from '../../../src/campaign/instrument-drift.js';
import { describe, expect, it } from 'vitest';
import { campaignAt, continueCampaign } from '../../../src/campaign/campaign.js';
import type { KnownCampaign, KnownImage, KnownInstrument, KnownTip } from '../../../src/execution/midway/known.js';
import type { CampaignModel } from '../../../src/campaign/model.js';
import { observed } from '../../../src/execution/midway/observed.js';
import { type PosteriorDraw, posteriorDraw } from '../../../src/execution/midway/posterior-draw.js';
import type { InstrumentState, MountedState, TakeState } from '../../../src/campaign/state.js';
import { LuckTable } from '../../../src/chance/luck.js';
import { WEEK } from '../../../src/kernel/hours.js';
import { type Plain, plainModel } from '../../support/scene.js';

const LUCK = new LuckTable('known');
const OFFICE = { hours: 'Mo-Fr 09:00-17:00', start: 'Mo 09:00' };
const HOUR = 3_600_000_000;
const DAY = 24 * HOUR;

/** Three regions of one image, each taken twice at the most. */
const planned = (more: Partial<Plain> = {}): CampaignModel =>
  plainModel({ regions: 3, ...more, noticing: { attempts: 2, ...more.noticing } });

/** How its only instrument stands after a minute or so, with its first tip on. */
function standing(model: CampaignModel): InstrumentState & { readonly tips: { readonly mounted: MountedState } } {
  const state = campaignAt(model, LUCK.replication(1), model.start + 60_000_000);
  const [instrument] = state?.instruments ?? [];
  const { mounted } = instrument.tips;
  if (mounted === null) throw new Error('A tip is on after the first scan.');
  return { ...instrument, tips: { ...instrument.tips, mounted } };
}

function take(image: number, running: number, more: Partial<TakeState> = {}): TakeState {
  return {
    image,
    running,
    tip: null,
    start: 0,
    end: 0,
    quality: 1,
    drift: NO_DRIFT,
    flaggedAt: null,
    flaggedFrom: null,
    voidAt: null,
    voidFrom: null,
    ...more,
  };
}

function seen(over: Partial<InstrumentState>, more: Partial<Plain> = {}): KnownCampaign {
  const model = planned(more);
  return observed(model, { instruments: [{ ...standing(model), ...over }] });
}

describe('what people know of an image', () => {
  const worklist = (again: readonly number[], repeats: readonly number[]) => ({
    turns: [],
    again,
    repeats,
    sample: 0,
    lostSamples: [],
  });
  const fates = (over: Partial<InstrumentState>) => seen(over).images.map(({ fate }) => fate);

  it('is whether it was taken, and whether what was taken was flagged', () => {
    const takes = [take(0, 0), take(1, 0, { flaggedAt: 5 })];
    expect(fates({ takes, worklist: worklist([], []) })).toEqual(['kept', 'flagged', 'not yet']);
    expect(fates({ takes: [take(0, 0, { voidAt: 5 })], worklist: worklist([], []) })[0]).toBe('flagged');
  });

  it('is that it is to be taken again where a failed check has made it suspect', () => {
    const takes = [take(0, 0), take(1, 0), take(2, 0)];
    expect(fates({ takes, worklist: worklist([0], [2]) })).toEqual(['flagged', 'kept', 'flagged']);
  });

  it('is that its review is still to come, where this very take is unreviewed', () => {
    const takes = [take(0, 0, { flaggedAt: 1 }), take(0, 1), take(1, 0)];
    const with_ = (image: number, running: number) =>
      fates({ takes, worklist: worklist([], []), unreviewed: [{ image, running }] }).slice(0, 2);
    expect(with_(0, 1)).toEqual(['unreviewed', 'kept']);
    expect(with_(0, 0)).toEqual(['kept', 'kept']);
    expect(with_(1, 0)).toEqual(['kept', 'unreviewed']);
  });

  it('is how often it was taken, up to its attempts, without what went with a lost specimen', () => {
    const flagged = { flaggedAt: 1 };
    const takes = [take(0, 0, flagged), take(0, 1, flagged), take(0, 2, flagged), take(1, 0, flagged), take(1, 1)];
    expect(seen({ takes }).images.map((image) => image.takes)).toEqual([2, 2, 0]);
    expect(seen({ takes, attemptsFrom: [[1, 1]] }).images[1]).toMatchObject({ takes: 1 });
    expect(seen({ takes, attemptsFrom: [[1, 2]] }).images[1]).toEqual({ fate: 'not yet', takes: 0 });
  });
});

describe('what people know of an instrument', () => {
  const station = (engaged: boolean, found: boolean, lastWorked = 0) => ({
    station: { ...standing(planned()).station, engaged, found, lastWorked },
  });
  const stands = (over: Partial<InstrumentState>, bookings?: object) =>
    seen(over, bookings === undefined ? {} : { bookings: { ...bookings } }).instruments[0].standing;

  it('is whether its tip is at the surface with the region in the frame', () => {
    expect(stands({ isSetUp: false, ...station(true, true) })).toBe('not begun');
    expect(stands(station(true, true))).toBe('at work');
    expect(stands(station(true, false))).toBe('retracted');
    expect(stands(station(false, true))).toBe('retracted');
  });

  it('is that it has been closed, where it is now or was since it last worked', () => {
    const at = (hour: number, lastWorked: number) =>
      stands({ ...station(true, true, lastWorked * HOUR), at: hour * HOUR }, OFFICE);
    expect(at(12, 11)).toBe('at work');
    expect(at(18, 16)).toBe('closed');
    expect(at(24 + 10, 16)).toBe('closed');
    expect(at(24 + 10, 24 + 9)).toBe('at work');
    // Where it is never closed, no pause is too long.
    expect(stands({ ...station(true, true, 0), at: 100 * DAY })).toBe('at work');
  });

  it('is what is left of what is limited, and which sites are used', () => {
    const shelf = (what: string, left: number) => ({ what, left, delivery: 0 });
    const shelves = [shelf('tip tip', 3), shelf('something else', 7)];
    const stock = { tips: { tip: { atHand: 5 } } };
    expect(seen({ shelves }, { stock }).instruments[0].left).toEqual([['tip tip', 3]]);
    expect(seen({}).instruments[0].sitesUsed).toEqual([]);
    const chip = { chip: 0, kindBefore: 0, hopsSinceCoarse: 0, isBroken: false };
    const used = (nextSite: readonly (readonly [number, number])[]) =>
      seen({ chip: { ...chip, nextSite } }, { workflow: 'hop' }).instruments[0].sitesUsed;
    expect(used([[0, 4]])).toEqual([[0, 4]]);
    expect(used([])).toEqual([[0, 0]]);
  });
});

describe('what people know of a tip', () => {
  function tipOf(over: Partial<MountedState>, takes: readonly TakeState[] = []): KnownTip | null {
    const { tips } = standing(planned());
    const mounted = { ...tips.mounted, unconfirmed: [], ...over };
    return seen({ takes, tips: { ...tips, mounted } }).instruments[0].tip;
  }
  const unconfirmed = [
    { image: 0, running: 1 },
    { image: 1, running: 0 },
    { image: 2, running: 0 },
  ];

  it('is which of its takes since the last passed check count', () => {
    const takes = [take(0, 0), take(0, 1), take(1, 0, { flaggedAt: 4 }), take(2, 0, { voidAt: 4 }), take(2, 1)];
    expect(tipOf({ unconfirmed }, takes)).toMatchObject({ since: [0], flaggedImage: null });
    expect(tipOf({ unconfirmed }, [take(0, 0)])).toMatchObject({ since: [] });
  });

  it('is which flagged image it is judged by, where that was its last', () => {
    const takes = [take(0, 1), take(1, 0, { flaggedAt: 4 })];
    expect(tipOf({ unconfirmed, judgement: 'flagged by an image' }, takes)?.flaggedImage).toBe(1);
    expect(tipOf({ unconfirmed, judgement: 'failed a check' }, takes)?.flaggedImage).toBeNull();
    expect(tipOf({ unconfirmed, judgement: 'flagged by an image' }, [...takes, take(2, 0)])?.flaggedImage).toBeNull();
    expect(tipOf({ unconfirmed: [], judgement: 'flagged by an image' }, takes)?.flaggedImage).toBeNull();
  });

  it('is the apex radius that its last passed check has read', () => {
    expect(tipOf({ passedAt: 0, radiusRead: 12 })).toMatchObject({ isChecked: true, radius: 12 });
    expect(tipOf({ passedAt: 0, radiusRead: 0 })).toMatchObject({ isChecked: true, radius: null });
    expect(tipOf({ passedAt: 0, radiusRead: 12, judgement: 'failed a check' })).toMatchObject({ radius: null });
    expect(tipOf({ passedAt: -1, radiusRead: 12 })).toMatchObject({ isChecked: false, radius: null });
  });
});

const TIP: KnownTip = {
  kind: 0,
  use: { images: 1, path: 0.1, hours: 0.1, approaches: 1 },
  ...{ isChecked: false, since: [], flaggedImage: null, judgement: 'sound', radius: null },
};
const NOT_YET: KnownImage = { fate: 'not yet', takes: 0 };

interface Told {
  readonly now?: number;
  readonly images?: readonly KnownImage[];
  readonly instrument?: Partial<KnownInstrument>;
}

function takenUp(model: CampaignModel, told: Told = {}): PosteriorDraw & { readonly one: InstrumentState } {
  const known: KnownCampaign = {
    now: told.now ?? model.start + HOUR,
    grantedUntil: null,
    images: told.images ?? model.images.map(() => NOT_YET),
    instruments: [
      {
        ...{
          standing: 'at work',
          sample: 0,
          lostSamples: [],
          region: 0,
          tip: TIP,
          parked: [],
          sitesUsed: [],
          left: [],
        },
        ...told.instrument,
      },
    ],
  };
  const found = posteriorDraw(model, known, LUCK.replication(2), () => 0.25);
  return { ...found, one: found.state.instruments[0] };
}

describe('a campaign taken up from what is known', () => {
  it('has its images still to take where they belong', () => {
    const images: readonly KnownImage[] = [
      { fate: 'flagged', takes: 1 },
      { fate: 'flagged', takes: 1 },
      { fate: 'not yet', takes: 0 },
    ];
    const list = (region: number, told = images) =>
      takenUp(planned(), { images: told, instrument: { region } }).one.worklist;
    expect(list(0)).toMatchObject({ turns: [2], again: [0], repeats: [1] });
    expect(list(1)).toMatchObject({ turns: [2], again: [1], repeats: [0] });
    const spent = images.map((image) => (image.fate === 'flagged' ? { ...image, takes: 2 } : image));
    expect(list(0, spent)).toMatchObject({ turns: [2], again: [], repeats: [] });
  });

  it('has on the sample that is on, has found what was scanned of it, and leaves out what no specimen is left for', () => {
    const model = planned({ samples: 3, regions: 2, workflow: 'hop' });
    const images: readonly KnownImage[] = model.images.map((_, i) => (i < 3 ? { fate: 'kept', takes: 1 } : NOT_YET));
    const { one } = takenUp(model, { images, instrument: { sample: 1, region: null, lostSamples: [2] } });
    expect(one).toMatchObject({ sample: 1, visited: [2], prepared: [0, 1, 2], region: null });
    expect(one.worklist).toEqual({ turns: [3], again: [], repeats: [], sample: 1, lostSamples: [2] });
  });

  it.each(['bench', 'instrument'] as const)('does not prepare again what is prepared (%s)', (prepareAt) => {
    const operatorTime = (prepare: number, standing: KnownInstrument['standing']) => {
      const steps = { prepare, setUp: 600, changeSample: 300 };
      const model = planned({ samples: 2, regions: 1, workflow: 'hop', steps, more: { prepareAt } });
      const images: readonly KnownImage[] = [standing === 'at work' ? { fate: 'kept', takes: 1 } : NOT_YET, NOT_YET];
      const tip = standing === 'at work' ? TIP : null;
      const { state } = takenUp(model, { images, instrument: { standing, tip, region: tip === null ? null : 0 } });
      return continueCampaign(model, LUCK.replication(3), state).operatorTime;
    };
    const more = (standing: KnownInstrument['standing']) => operatorTime(1200, standing) - operatorTime(0, standing);
    // At the bench all specimens are ready before the start; at the instrument each before its sample is put on.
    expect(more('at work')).toBe(prepareAt === 'bench' ? 0 : 1200);
    expect(more('not begun')).toBe(prepareAt === 'bench' ? 0 : 2 * 1200);
  });

  it('has any number of tips parked, each with a number and takes of its own', () => {
    const images: readonly KnownImage[] = [{ fate: 'kept', takes: 1 }, { fate: 'kept', takes: 1 }, NOT_YET];
    const parked = [
      { ...TIP, since: [0] },
      { ...TIP, since: [1] },
    ];
    const { one } = takenUp(planned(), { images, instrument: { parked } });
    expect(one.tips.parked.map(({ number }) => number)).toEqual([0, 1]);
    expect(one.tips.mounted?.number).toBe(2);
    expect(one.tips.mountings).toEqual([[0, 3]]);
    expect(one.takes.map(({ tip }) => tip?.number)).toEqual([0, 1]);
  });

  it('has on the desk what waits for its review, and keeps what was kept with the quality told', () => {
    const images: readonly KnownImage[] = [{ fate: 'unreviewed', takes: 2 }, { fate: 'kept', takes: 1 }, NOT_YET];
    const { one } = takenUp(planned(), { images });
    expect(one.unreviewed).toMatchObject([{ image: 0, running: 1 }]);
    expect(
      one.takes.map(({ image, running, quality, flaggedAt }) => [image, running, quality, flaggedAt !== null]),
    ).toEqual([
      [0, 0, 0, true],
      [0, 1, 0.25, false],
      [1, 0, 0.25, false],
    ]);
  });

  it.each([
    ['not begun', { isSetUp: false, engaged: false, warm: false }],
    ['at work', { isSetUp: true, engaged: true, warm: true }],
    ['retracted', { isSetUp: true, engaged: false, warm: true }],
    ['closed', { isSetUp: true, engaged: false, warm: true }],
  ] as const)('stands as it does where it is %s', (name, { isSetUp, engaged, warm }) => {
    const model = planned({ bookings: OFFICE });
    const now = model.start + HOUR;
    const { one } = takenUp(model, { now, instrument: { standing: name } });
    const isOpen = name === 'at work' || name === 'retracted';
    expect(one).toMatchObject({ isSetUp, station: { engaged, found: engaged, warm } });
    expect(one.station.bookedUntil).toBe(isOpen ? model.start + 8 * HOUR : 0);
    // One that has stood idle last worked before the last closing.
    expect(one.station.lastWorked).toBe(name === 'closed' ? now - WEEK : now);
  });

  it('is closed at night whatever is said, and never where it is always booked', () => {
    const model = planned({ bookings: OFFICE });
    const night = model.start + 12 * HOUR;
    expect(takenUp(model, { now: night }).one.station).toMatchObject({ engaged: false, lastWorked: night - WEEK });
    const always = planned();
    const now = always.start + HOUR;
    const { station } = takenUp(always, { now, instrument: { standing: 'closed' } }).one;
    expect(station).toMatchObject({ engaged: false, lastWorked: now });
    expect(takenUp(always).one.station.bookedUntil).toBeNull();
  });

  it('has on its shelves what is left, a delivery on its way where that is nothing', () => {
    const model = planned({ stock: { tips: { tip: { atHand: 5, restock: '3 h' } } } });
    const now = model.start + HOUR;
    const shelf = (left: readonly (readonly [string, number])[]) =>
      takenUp(model, { now, instrument: { left } }).one.shelves.filter(({ what }) => what === 'tip tip');
    expect(shelf([])).toEqual([{ what: 'tip tip', left: 5, delivery: now }]);
    expect(shelf([['tip tip', 2]])).toEqual([{ what: 'tip tip', left: 2, delivery: now }]);
    expect(shelf([['tip tip', 0]])).toEqual([{ what: 'tip tip', left: 0, delivery: now + 3 * HOUR }]);
  });

  it('has a chip with what is left of its sites, and knows when a coarse move is due', () => {
    const hopping = (fineRange?: string) => {
      const chip = { sites: { tip: 9 }, pitch: '100 um' };
      return planned({ workflow: 'hop', more: { chip, ...(fineRange === undefined ? {} : { fineRange }) } });
    };
    const chipOf = (sitesUsed: readonly (readonly [number, number])[], fineRange?: string, over = {}) =>
      takenUp(hopping(fineRange), { instrument: { sitesUsed, ...over } }).one.chip;
    expect(chipOf([[0, 6]])).toMatchObject({ chip: 0, nextSite: [[0, 6]], kindBefore: 0, hopsSinceCoarse: 5 });
    expect(chipOf([[0, 6]], '300 um')).toMatchObject({ hopsSinceCoarse: 2 });
    expect(chipOf([[0, 0]], '300 um')).toMatchObject({ hopsSinceCoarse: 0 });
    expect(chipOf([])).toMatchObject({ nextSite: [[0, 9]] });
    expect(chipOf([], undefined, { standing: 'not begun', tip: null })).toMatchObject({ chip: -1, kindBefore: null });
    expect(takenUp(planned()).one.chip).toBeNull();
  });

  it('has a check to make on a tip that has scanned nothing and passed none, where new tips are checked', () => {
    const unchecked = (tip: Partial<KnownTip>, onNew = true) =>
      takenUp(planned({ noticing: { check: { every: 4, time: '1 min', onNew } } }), {
        instrument: { tip: { ...TIP, use: { ...TIP.use, images: 0 }, ...tip } },
      }).one.tips.mounted?.isUnchecked;
    expect(unchecked({})).toBe(true);
    expect(unchecked({}, false)).toBe(false);
    expect(unchecked({ isChecked: true })).toBe(false);
    expect(unchecked({ use: TIP.use })).toBe(false);
  });

  it('is a guess where no past of one of its tips fits, be it the parked one', () => {
    const breaking = {
      hazards: [{ cause: 'breakage', per: 'approach', life: { distribution: 'probability', perUnit: 1 } }],
    };
    const even = { radius: { nominal: '8 nm', geometricSd: 1 } };
    const model = plainModel({
      regions: 2,
      tips: { tip: { ...even, hazards: [] }, frail: { ...even, ...breaking } },
      passes: [{}, { tip: 'frail' }],
    });
    const images: readonly KnownImage[] = [{ fate: 'kept', takes: 1 }, { fate: 'kept', takes: 1 }, NOT_YET, NOT_YET];
    const parked = (since: readonly number[]) =>
      takenUp(model, { images, instrument: { parked: [{ ...TIP, kind: 1, since }] } });
    expect(parked([]).isGuess).toBe(false);
    expect(parked([1]).isGuess).toBe(true);
  });
});
