import { isGood } from '../probe/image.js';
import { ACTIVITIES, type Activity } from './activities.js';
import { isSpoiledByDrift, type Take } from './ledger.js';
import { type Reason, REASONS, type Timesheet } from './timesheet.js';

/** What an instrument's time inside bookings goes to, told apart by why: first what is wanted, then what is lost. */
export const TIME_PARTS = [
  'scans kept',
  'handling as planned',
  'settling and warming up',
  'reviewing, checking and waiting',
  'scans lost to drift',
  'scans lost to loss of tracking',
  'scans lost to spoiled tips',
  'good scans lost',
  'cleaning and replacing flagged tips',
  'tries that failed',
  'mishandled exchanges',
] as const;
export type TimePart = (typeof TIME_PARTS)[number];

/** The parts that are lost. */
export const LOST_PARTS: readonly TimePart[] = TIME_PARTS.slice(4);

/** Those of them that are scans. */
export const LOST_SCANS: readonly TimePart[] = LOST_PARTS.slice(0, 4);

/** A record with one entry a part. */
export function perTimePart<Value>(of: (part: TimePart) => Value): Readonly<Record<TimePart, Value>> {
  return {
    'scans kept': of('scans kept'),
    'handling as planned': of('handling as planned'),
    'settling and warming up': of('settling and warming up'),
    'reviewing, checking and waiting': of('reviewing, checking and waiting'),
    'scans lost to drift': of('scans lost to drift'),
    'scans lost to loss of tracking': of('scans lost to loss of tracking'),
    'scans lost to spoiled tips': of('scans lost to spoiled tips'),
    'good scans lost': of('good scans lost'),
    'cleaning and replacing flagged tips': of('cleaning and replacing flagged tips'),
    'tries that failed': of('tries that failed'),
    'mishandled exchanges': of('mishandled exchanges'),
  };
}

/** Place of each part in TIME_PARTS. */
const NUMBER = perTimePart((part) => TIME_PARTS.indexOf(part));

const HANDLING: Readonly<Record<Exclude<Reason, 'outside bookings'>, TimePart>> = {
  'as planned': 'handling as planned',
  'flagged tip': 'cleaning and replacing flagged tips',
  'failed try': 'tries that failed',
  mishandling: 'mishandled exchanges',
};

function partOf(activity: Activity, reason: Exclude<Reason, 'outside bookings'>): TimePart {
  switch (activity) {
    case 'scanning kept':
    case 'scanning lost':
      return 'scans kept';
    case 'warming up and settling':
      return 'settling and warming up';
    case 'cleaning and reconditioning':
      return 'cleaning and replacing flagged tips';
    case 'exchanging':
    case 'locating and relocating':
    case 'hopping':
    case 'preparing and setting up':
      return HANDLING[reason];
    case 'reviewing':
    case 'checking':
    case 'waiting for a booking':
    case 'waiting for stock':
    case 'waiting for the operator':
      return 'reviewing, checking and waiting';
  }
}

/** By reason and activity, the number of the part that it belongs to. */
const PARTS = REASONS.flatMap((reason) =>
  reason === 'outside bookings' ? [] : ACTIVITIES.map((activity) => NUMBER[partOf(activity, reason)]),
);

/** Microseconds of each part, in the order of TIME_PARTS, of one instrument as if all its scans were kept; they add up to its time inside bookings. */
export function timePartsOf({ cells }: Timesheet): number[] {
  // Fractions first, so that numbers lie in it as such.
  const parts = TIME_PARTS.map(() => 0.5).fill(0);
  for (let cell = 0; cell < PARTS.length; cell += 1) parts[PARTS[cell]] += cells[cell];
  return parts;
}

/** A scan among them was lost. */
export function lose(parts: number[], take: Take): void {
  const time = take.end - take.start;
  parts[NUMBER['scans kept']] -= time;
  parts[NUMBER[lossOf(take)]] += time;
}

/** Why a scan was lost. A bad one is blamed on the one thing without which it would have been good, else on its tip. */
function lossOf(take: Take): TimePart {
  const { good, quality, image, drift } = take;
  if (good) return 'good scans lost';
  if (isSpoiledByDrift(take)) return 'scans lost to drift';
  const { demand } = image.pass;
  return isGood(demand, quality / (drift.quality * demand.tracking))
    ? 'scans lost to loss of tracking'
    : 'scans lost to spoiled tips';
}
