import { ACTIVITY_NUMBER } from './activities.js';
import type { BadScans, ImageFate, Ledger, TipRecord } from './ledger.js';
import { SECOND } from '../kernel/clock.js';
import type { CampaignModel } from './model.js';
import type { Pool } from './pool.js';
import type { Scheduler } from './scheduler.js';
import { lose, timePartsOf } from './time-parts.js';

const KEPT = ACTIVITY_NUMBER['scanning kept'];
const LOST = ACTIVITY_NUMBER['scanning lost'];

/** What became of the images by some moment. */
export interface ImageTally {
  readonly yield: number;
  readonly apparentYield: number;
  /** Of the images planned. */
  readonly undetectedBadShare: number;
  readonly good: number;
  readonly undetectedBad: number;
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
  /** What became of each image of the plan, in its order; of a `CampaignRunner` only until it runs the next. */
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

/** Reads off the ledger and the schedulers what a replication came to. */
export function outcomeOf(
  model: CampaignModel,
  ledger: Ledger,
  schedulers: readonly Scheduler[],
  isFinished: boolean,
  pool: Pool,
): Outcome {
  const { start, settings } = model;
  const ends = schedulers.map((scheduler) => scheduler.timesheet.accountedTo);
  const elapsed = ends.map((end) => end - start);
  const totalTime = Math.max(...elapsed) / SECOND;
  const confirmed = Math.max(...ends, ...schedulers.map((scheduler) => scheduler.reviews.lastReview));
  const overrun = sum(schedulers.map((scheduler) => scheduler.overrun)) / SECOND;
  const booked = ends.map((end) => model.bookings.openBetween(start, end) / SECOND);
  const instrumentTime = Math.max(...booked);
  const last = booked.indexOf(instrumentTime);
  const benchTime = sum(schedulers.map((scheduler) => scheduler.benchTime)) / SECOND;
  const attended = sum(schedulers.map((scheduler) => scheduler.operatorTime + scheduler.reviews.timeSpent)) / SECOND;
  const operatorTime = attended + benchTime;
  const { tipsUsed, probesBought, chipsOpened, specimensUsed } = ledger;
  const kinds = Object.values(settings.tips);
  let cost = 0;
  for (const { kind } of probesBought) cost += kinds[kind].price;
  cost +=
    chipsOpened.length * settings.workflows.hop.chip.price +
    ((sum(booked) + overrun) / 3600) * settings.costs.instrumentHour +
    (operatorTime / 3600) * settings.costs.operatorHour;
  const split = schedulers.map(({ timesheet }) => timesheet.byActivity());
  const parts = timePartsOf(schedulers[last].timesheet);
  const images = pool.fatesOf(model.images.length);
  const takesOf = new Array<number>(images.length).fill(0);
  for (let place = 0; place < images.length; place += 1) {
    const image = model.images[place];
    const fate = images[place];
    const { kept } = ledger.fillIn(image, fate);
    takesOf[place] = ledger.count(image);
    for (let take = ledger.last(image); take !== null; take = take.previous) {
      if (take === kept || ledger.isRecalled(take)) continue;
      const time = take.end - take.start;
      split[image.instrument][KEPT] -= time;
      split[image.instrument][LOST] += time;
      if (image.instrument === last) lose(parts, take);
    }
  }
  const tally = tallyOf(model, images);
  const outcome: Outcome = {
    // Written out, as spreading costs more than all the rest of this function.
    yield: tally.yield,
    apparentYield: tally.apparentYield,
    undetectedBadShare: tally.undetectedBadShare,
    good: tally.good,
    undetectedBad: tally.undetectedBad,
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
    timeParts: parts,
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
  return Object.assign(outcome, { badScans: model.images.map((image) => ledger.badScans(image)) });
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

/** Counts images and yields by what was kept of each. */
function tallyOf(model: CampaignModel, images: readonly ImageFate[]): ImageTally {
  const { images: planned } = model;
  const counts = { good: 0, 'undetected bad': 0, 'given up': 0, missing: 0 };
  let weights = 0;
  let gained = 0;
  let apparent = 0;
  for (let place = 0; place < planned.length; place += 1) {
    const { kept, fate } = images[place];
    const { weight } = planned[place].pass;
    weights += weight;
    if (kept !== null) {
      const worth = weight * kept.quality;
      apparent += worth;
      if (kept.good) gained += worth;
    }
    counts[fate] += 1;
  }
  return {
    yield: weights === 0 ? 0 : gained / weights,
    apparentYield: weights === 0 ? 0 : apparent / weights,
    undetectedBadShare: counts['undetected bad'] / planned.length,
    good: counts.good,
    undetectedBad: counts['undetected bad'],
    givenUp: counts['given up'],
    missing: counts.missing,
  };
}

function sum(values: readonly number[]): number {
  let total = 0;
  for (let i = 0; i < values.length; i += 1) total += values[i];
  return total;
}
