import { ACTIVITIES, type Activity, ACTIVITY_NUMBER } from './activities.js';
import type { BadScans, ImageFate, Ledger, TipRecord } from './ledger.js';
import { SECOND } from '../kernel/clock.js';
import type { CampaignModel } from './model.js';
import type { Station } from './station.js';
import { timePartsOf } from './time-parts.js';

/** What became of the images by some moment. */
export interface ImageTally {
  readonly yield: number;
  readonly apparentYield: number;
  /** Of the images planned. */
  readonly silentBadShare: number;
  readonly good: number;
  readonly silentBad: number;
  readonly givenUp: number;
  readonly missing: number;
}

/** What one replication of one strategy came to. Times in seconds from the start of the experiment. */
export interface Outcome extends ImageTally {
  /** From the start to the end of the last step. */
  readonly totalTime: number;
  /** All time inside bookings from the start to the end of the last step. */
  readonly instrumentTime: number;
  /** Of all operators, work at the bench before the start included. */
  readonly operatorTime: number;
  /** The part of it that is spent at the bench before the start. */
  readonly benchTime: number;
  /** Steps past the end of the booking in which they started, summed over instruments. */
  readonly overrun: number;
  /** End of the last step or operator's review, whichever is later. */
  readonly confirmedAt: number;
  readonly takes: number;
  readonly tips: number;
  readonly probes: number;
  readonly chips: number;
  readonly specimens: number;
  readonly cost: number;
  readonly isFinished: boolean;
  /** Microseconds by activity, in the order of ACTIVITIES, one row an instrument; each row adds up to `elapsed`. */
  readonly split: readonly (readonly number[])[];
  /** Microseconds of the instrument time by what they were for, in the order of TIME_PARTS; they add up to it. */
  readonly timeParts: readonly number[];
  /** Microseconds from the start to the end of the last step, by instrument. */
  readonly elapsed: readonly number[];
  /** What became of each image of the plan, in its order. */
  readonly images: readonly ImageFate[];
  /** How many takes each image of the plan had. */
  readonly takesOf: readonly number[];
  /** Bad scans of each image of the plan, by what made them so; absent where nothing drifts. */
  readonly badScans?: readonly BadScans[];
  readonly tipRecords: readonly TipRecord[];
  /** The experiment cut at the end of the granted time; null where none is granted. */
  readonly cut: (ImageTally & { readonly tips: number; readonly isFinished: boolean }) | null;
  /** Images as they stand where it is cut at each of `cutsAt` of the model. */
  readonly cuts: readonly ImageTally[];
}

/** Reads off the ledger and the stations what a replication came to. */
export function outcomeOf(
  model: CampaignModel,
  ledger: Ledger,
  stations: readonly Station[],
  isFinished: boolean,
): Outcome {
  const { start, settings } = model;
  const { images: planned } = model;
  const images = planned.map((image) => ledger.fate(image));
  const takesOf = planned.map((image) => ledger.count(image));
  const ends = stations.map((station) => station.timesheet.accountedTo);
  const split = stations.map((station) => splitOf(station, model, images, ledger));
  const elapsed = ends.map((end) => end - start);
  const totalTime = Math.max(...elapsed) / SECOND;
  const confirmed = Math.max(...ends, ...stations.map((station) => station.desk.lastReview));
  const overrun = sum(stations.map((station) => station.overrun)) / SECOND;
  const booked = ends.map((end) => model.bookings.openBetween(start, end) / SECOND);
  const instrumentTime = Math.max(...booked);
  const last = booked.indexOf(instrumentTime);
  const benchTime = sum(stations.map((station) => station.benchTime)) / SECOND;
  const attended = sum(stations.map((station) => station.operatorTime + station.desk.timeSpent)) / SECOND;
  const operatorTime = attended + benchTime;
  const { tipsUsed, probesBought, chipsOpened, specimensUsed } = ledger;
  const kinds = Object.values(settings.tips);
  const cost =
    sum(probesBought.map(({ kind }) => kinds[kind].price)) +
    chipsOpened.length * settings.workflows.hop.chip.price +
    ((sum(booked) + overrun) / 3600) * settings.costs.instrumentHour +
    (operatorTime / 3600) * settings.costs.operatorHour;
  const tally = tallyOf(model, images);
  const outcome: Outcome = {
    // Written out, as spreading costs more than all the rest of this function.
    yield: tally.yield,
    apparentYield: tally.apparentYield,
    silentBadShare: tally.silentBadShare,
    good: tally.good,
    silentBad: tally.silentBad,
    givenUp: tally.givenUp,
    missing: tally.missing,
    totalTime,
    instrumentTime,
    operatorTime,
    benchTime,
    overrun,
    confirmedAt: (confirmed - start) / SECOND,
    takes: sum(takesOf),
    tips: tipsUsed.length,
    probes: probesBought.length,
    chips: chipsOpened.length,
    specimens: specimensUsed.length,
    cost,
    isFinished,
    split,
    timeParts: timePartsOf(stations[last].timesheet, model.shares[last], ledger),
    elapsed,
    images,
    takesOf,
    tipRecords: ledger.tips,
    cut: cutOf(
      model,
      ledger,
      isFinished && model.bookings.openBetween(model.allocationEnd ?? Infinity, Math.max(...ends)) === 0,
    ),
    cuts: model.cutsAt.map((end) => tallyAt(end, model, ledger)),
  };
  if (model.drift === null) return outcome;
  return Object.assign(outcome, { badScans: planned.map((image) => ledger.badScans(image)) });
}

function cutOf(model: CampaignModel, ledger: Ledger, isFinished: boolean): Outcome['cut'] {
  const end = model.allocationEnd;
  if (end === null) return null;
  const tips = ledger.tipsUsed.filter((time) => time < end).length;
  return Object.assign(tallyAt(end, model, ledger), { tips, isFinished });
}

/** Images as they stand where the campaign is cut at `end` microseconds. */
function tallyAt(end: number, model: CampaignModel, ledger: Ledger): ImageTally {
  return tallyOf(
    model,
    model.images.map((image) => ledger.fate(image, end)),
  );
}

/** Microseconds of one instrument by activity: scanning is told apart by whether its take was kept in the end. */
function splitOf(
  station: Station,
  model: CampaignModel,
  images: readonly ImageFate[],
  ledger: Ledger,
): readonly number[] {
  const split = ACTIVITIES.map((activity: Activity) => station.timesheet.of(activity));
  let kept = 0;
  for (const { number } of model.shares[station.number]) {
    const { kept: take } = images[number];
    if (take !== null && !ledger.isRecalled(take)) kept += take.end - take.start;
  }
  split[ACTIVITY_NUMBER['scanning lost']] = split[ACTIVITY_NUMBER['scanning kept']] - kept;
  split[ACTIVITY_NUMBER['scanning kept']] = kept;
  return split;
}

/** Counts images and yields by what was kept of each. */
function tallyOf(model: CampaignModel, images: readonly ImageFate[]): ImageTally {
  let [good, silentBad, givenUp, missing] = [0, 0, 0, 0];
  let planned = 0;
  let gained = 0;
  let apparent = 0;
  for (const { number, pass } of model.images) {
    const { kept, fate } = images[number];
    const { weight } = pass;
    planned += weight;
    if (kept !== null) apparent += weight * kept.quality;
    if (kept?.good === true) gained += weight * kept.quality;
    if (fate === 'good') good += 1;
    else if (fate === 'silent bad') silentBad += 1;
    else if (fate === 'given up') givenUp += 1;
    else missing += 1;
  }
  return {
    yield: planned === 0 ? 0 : gained / planned,
    apparentYield: planned === 0 ? 0 : apparent / planned,
    silentBadShare: silentBad / model.images.length,
    good,
    silentBad,
    givenUp,
    missing,
  };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
