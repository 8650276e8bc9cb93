import type { KnownCampaign, KnownFate, KnownImage, KnownInstrument, KnownTip, Standing } from './known.js';
import type { CampaignModel } from '../../campaign/model.js';
import type { CampaignState, InstrumentState, MountedState, TakeState } from '../../campaign/state.js';
import { suppliesOf } from '../../campaign/supplies.js';

/** What people at the instruments would know of a campaign that stands so. */
export function observed(model: CampaignModel, { instruments }: CampaignState): KnownCampaign {
  const now = Math.max(...instruments.map(({ at }) => at));
  const { attempts } = model.settings.noticing;
  const shares = model.shares.flatMap((images, instrument) =>
    images.map(({ number }) => [number, imageOf(number, instruments[instrument], attempts)] as const),
  );
  return {
    now,
    grantedUntil: model.allocationEnd,
    images: shares.sort(([one], [other]) => one - other).map(([, image]) => image),
    instruments: instruments.map((instrument) => instrumentOf(model, instrument)),
  };
}

/**
 * A specimen that was lost takes its images' earlier takes with it. What a failed check made suspect counts as flagged, as
 * it is to be taken again.
 */
function imageOf(
  image: number,
  { takes, unreviewed, attemptsFrom, worklist }: InstrumentState,
  attempts: number,
): KnownImage {
  const uncounted = attemptsFrom.find(([number]) => number === image)?.[1] ?? 0;
  const own = takes.filter((take) => take.image === image).slice(uncounted);
  const kept = own.findLast(isKept);
  return { fate: fateOf(), takes: Math.min(own.length, attempts) };

  function fateOf(): KnownFate {
    if (own.length === 0) return 'not yet';
    if (kept === undefined || worklist.again.includes(image) || worklist.repeats.includes(image)) return 'flagged';
    return unreviewed.some((name) => name.image === image && name.running === kept.running) ? 'unreviewed' : 'kept';
  }
}

function isKept({ flaggedAt, voidAt }: TakeState): boolean {
  return flaggedAt === null && voidAt === null;
}

function instrumentOf(model: CampaignModel, instrument: InstrumentState): KnownInstrument {
  const { sample, region, worklist, tips, chip, shelves, takes } = instrument;
  const known = (state: MountedState) => tipOf(state, takes);
  const limited = new Set(suppliesOf(model.settings).map(([what]) => what));
  return {
    standing: standingOf(model, instrument),
    sample,
    lostSamples: worklist.lostSamples,
    region,
    tip: tips.mounted === null ? null : known(tips.mounted),
    parked: tips.parked.map(known),
    sitesUsed: chip === null ? [] : model.kinds.map(({ index }) => [index, sitesUsed(chip.nextSite, index)]),
    left: shelves.filter(({ what }) => limited.has(what)).map(({ what, left }) => [what, left]),
  };
}

function sitesUsed(nextSite: readonly (readonly [kind: number, site: number])[], kind: number): number {
  return nextSite.find(([index]) => index === kind)?.[1] ?? 0;
}

function standingOf({ bookings }: CampaignModel, { isSetUp, station, at }: InstrumentState): Standing {
  if (!isSetUp) return 'not begun';
  if (
    !bookings.isOpen(at) ||
    (!bookings.isAlways && bookings.openBetween(station.lastWorked, at) < at - station.lastWorked)
  )
    return 'closed';
  return station.engaged && station.found ? 'at work' : 'retracted';
}

function tipOf(state: MountedState, takes: readonly TakeState[]): KnownTip {
  const { kind, tip, unconfirmed, judgement } = state;
  const made = unconfirmed.flatMap(({ image, running }) =>
    takes.filter((take) => take.image === image && take.running === running && take.voidAt === null),
  );
  const last = made.at(-1);
  const isFlagged = judgement === 'flagged by an image' && last !== undefined && last.flaggedAt !== null;
  const isChecked = state.passedAt >= 0;
  return {
    kind,
    use: tip.use,
    isChecked,
    since: made.filter(isKept).map(({ image }) => image),
    flaggedImage: isFlagged ? last.image : null,
    judgement,
    radius: isChecked && judgement !== 'failed a check' && state.radiusRead > 0 ? state.radiusRead : null,
  };
}
