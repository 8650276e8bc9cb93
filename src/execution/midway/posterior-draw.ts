import { WEEK } from '../../kernel/hours.js';
import type { Luck } from '../../chance/luck.js';
import { rejectionSample, type Past } from './rejection-sample.js';
import { hopsPerCoarseMove } from '../../campaign/chip.js';
import { NO_DRIFT } from '../../campaign/instrument-drift.js';
import type { KnownCampaign, KnownInstrument, KnownTip } from './known.js';
import type { CampaignModel, ImageModel } from '../../campaign/model.js';
import type {
  CampaignState,
  ChipState,
  InstrumentState,
  MountedState,
  ShelfState,
  StationState,
  TakeName,
  TakeState,
} from '../../campaign/state.js';
import { deliveryDelay, suppliesOf } from '../../campaign/supplies.js';

/** A state in which a campaign may be, given what is known of it. */
export interface PosteriorDraw {
  readonly state: CampaignState;
  /** No past of some tip fitted what was seen. */
  readonly isGuess: boolean;
}

/**
 * Draws what is hidden of a campaign. `earlier` gives the quality of a kept image that was taken before its tip was last
 * known to be sound, or by a tip that has gone since.
 */
export function posteriorDraw(
  model: CampaignModel,
  known: KnownCampaign,
  luck: Luck,
  earlier: (image: number) => number,
): PosteriorDraw {
  let isGuess = false;
  const { instruments } = known;
  const states = instruments.map((instrument, number) => {
    const images = model.shares[number];
    const pasts = new Map(
      numbered(instrument).map(([tip, own]) => {
        const past = rejectionSample(model, tip, { luck, instrument: number, number: own });
        return [tip, { ...past, number: own }] as const;
      }),
    );
    isGuess ||= [...pasts.values()].some((past) => past.isGuess);
    return instrumentState({ model, known, instrument, images, pasts, earlier });
  });
  return { state: { instruments: states }, isGuess };
}

/** Tips that are parked or on, numbered by kind. */
function numbered({ parked, tip }: KnownInstrument): readonly (readonly [tip: KnownTip, number: number])[] {
  const held = tip === null ? parked : [...parked, tip];
  return held.map((one, i) => [one, held.slice(0, i).filter(({ kind }) => kind === one.kind).length]);
}

/** What a tip has been through, and its number. */
interface NumberedPast extends Past {
  readonly number: number;
}

interface Given {
  readonly model: CampaignModel;
  readonly known: KnownCampaign;
  readonly instrument: KnownInstrument;
  /** The instrument's share of the plan. */
  readonly images: readonly ImageModel[];
  readonly pasts: ReadonlyMap<KnownTip, NumberedPast>;
  readonly earlier: (image: number) => number;
}

function instrumentState(given: Given): InstrumentState {
  const { model, known, instrument, images } = given;
  const { region, tip, parked, standing, lostSamples } = instrument;
  const fateOf = (image: ImageModel) => known.images[image.number].fate;
  const open = images.filter((image) => !lostSamples.includes(image.sample));
  const again = open.filter(
    (image) => fateOf(image) === 'flagged' && known.images[image.number].takes < model.settings.noticing.attempts,
  );
  const numbers = (some: readonly ImageModel[]) => some.map((image) => image.number);
  const taken = images.filter((image) => known.images[image.number].takes > 0);
  const last = tip?.flaggedImage ?? tip?.since.at(-1) ?? taken.at(-1)?.number ?? null;
  const isBegun = standing !== 'not begun';
  const sample = instrument.sample ?? images.at(0)?.sample ?? 0;
  const seen = taken.filter((image) => image.sample === sample).map((image) => image.region);
  return {
    at: known.now,
    isSetUp: isBegun,
    sample: isBegun ? sample : null,
    prepared: preparedFor(given, [...taken.map((image) => image.sample), ...(isBegun ? [sample] : [])]),
    region,
    visited: [...new Set([...seen, ...(region === null ? [] : [region])])],
    station: stationState(given, last),
    worklist: {
      turns: numbers(open.filter((image) => fateOf(image) === 'not yet')),
      again: numbers(again.filter((image) => image.region === region)),
      repeats: numbers(again.filter((image) => image.region !== region)),
      sample,
      lostSamples,
    },
    shelves: shelvesLeft(given),
    tips: {
      mounted: tip === null ? null : mountedState(tip, given),
      parked: parked.map((one) => mountedState(one, given)),
      mountings: model.kinds.map(({ index }) => [
        index,
        [...given.pasts.keys()].filter(({ kind }) => kind === index).length,
      ]),
      mountingsSinceScan: 0,
    },
    lost: null,
    chip: model.workflow === 'hop' ? chipState(given) : null,
    takes: taken.flatMap((image) => takesOf(image, given)),
    attemptsFrom: [],
    unreviewed: taken.filter((image) => fateOf(image) === 'unreviewed').map((image) => keptTake(image, given)),
    last,
  };
}

/** Samples whose specimens are prepared: at the bench all of them, else those that were put on. */
function preparedFor({ model, images }: Given, putOn: readonly number[]): readonly number[] {
  if (model.workflow !== 'hop') return [];
  const isAtBench = model.settings.workflows.hop.prepareAt === 'bench';
  return [...new Set(isAtBench ? images.map(({ sample }) => sample) : putOn)];
}

/** One that has stood idle worked last before a closing; where there is none, nothing has been idle. */
function stationState({ model, known, instrument }: Given, last: number | null): StationState {
  const { bookings } = model;
  const isOpen = instrument.standing !== 'not begun' && instrument.standing !== 'closed' && bookings.isOpen(known.now);
  const isAtWork = instrument.standing === 'at work' && isOpen;
  const stoodIdle = instrument.standing !== 'not begun' && !isOpen && !bookings.isAlways;
  return {
    engaged: isAtWork,
    found: isAtWork,
    warm: instrument.standing !== 'not begun',
    bookedUntil: isOpen ? finite(bookings.closing(known.now)) : 0,
    lastWorked: stoodIdle ? known.now - WEEK : known.now,
    openings: 0,
    due: last,
    occurrences: [],
    preparations: [],
    // Nobody tells when hands were last at it: it is taken for settled.
    drift: null,
  };
}

function finite(moment: number): number | null {
  return moment === Infinity ? null : moment;
}

function shelvesLeft({ model, known, instrument }: Given): readonly ShelfState[] {
  return suppliesOf(model.settings).map(([what, supply]) => {
    const left = instrument.left.find(([name]) => name === what)?.[1] ?? supply.atHand;
    return { what, left, delivery: known.now + (left === 0 ? deliveryDelay(supply) : 0) };
  });
}

function chipState({ model, instrument }: Given): ChipState {
  const sites = new Map(Object.entries(model.settings.workflows.hop.chip.sites));
  const used = model.kinds.map(({ name, index }): [number, number] => [
    index,
    instrument.sitesUsed.find(([kind]) => kind === index)?.[1] ?? sites.get(name) ?? 0,
  ]);
  const hops = used.reduce((sum, [, sites]) => sum + sites, 0) - 1;
  const reach = hopsPerCoarseMove(model.settings);
  return {
    chip: instrument.standing === 'not begun' ? -1 : 0,
    nextSite: used,
    kindBefore: instrument.tip?.kind ?? null,
    hopsSinceCoarse: reach === Infinity || hops < 0 ? Math.max(0, hops) : hops % reach,
    isBroken: false,
  };
}

function mountedState(tip: KnownTip, { model, known, pasts }: Given): MountedState {
  const past = pasts.get(tip);
  if (past === undefined) throw new Error('Every tip that is on or parked has a past.');
  return {
    kind: tip.kind,
    number: past.number,
    tip: past.tip,
    mountedAt: known.now,
    judgement: tip.judgement,
    seenBroken: false,
    cleanings: 0,
    reconditionings: 0,
    radiusRead: tip.radius ?? 0,
    passedAt: -1,
    clearedAt: -1,
    isUnchecked: (model.settings.noticing.check?.onNew ?? false) && !tip.isChecked && tip.use.images === 0,
    unconfirmed: tip.since.map((image) => ({ image, running: known.images[image].takes - 1 })),
  };
}

/** Takes of an image: flagged ones, and the one that is kept or waits for its review. */
function takesOf(image: ImageModel, given: Given): readonly TakeState[] {
  const { fate, takes } = given.known.images[image.number];
  const flagged = fate === 'flagged' ? takes : takes - 1;
  const past = momentOf(given);
  const lost = Array.from({ length: flagged }, (_, running): TakeState => ({
    ...{ image: image.number, running, tip: null, start: past, end: past },
    ...{ quality: 0, drift: NO_DRIFT, flaggedAt: past, flaggedFrom: past - 1, voidAt: null, voidFrom: null },
  }));
  return fate === 'flagged' ? lost : [...lost, keptTake(image, given)];
}

function keptTake(image: ImageModel, given: Given): TakeState & TakeName {
  const { known, pasts, earlier } = given;
  const maker = [...pasts].find(([, { qualities }]) => qualities.has(image.number));
  const past = momentOf(given);
  return {
    image: image.number,
    running: known.images[image.number].takes - 1,
    tip: maker === undefined ? null : { kind: maker[0].kind, number: maker[1].number },
    start: past,
    end: past,
    quality: maker?.[1].qualities.get(image.number) ?? earlier(image.number),
    drift: NO_DRIFT,
    flaggedAt: null,
    flaggedFrom: null,
    voidAt: null,
    voidFrom: null,
  };
}

/** What was taken before counts as taken now, or at the end of the granted time where that is over. */
function momentOf({ known }: Given): number {
  return Math.min(known.now, known.grantedUntil ?? known.now);
}
