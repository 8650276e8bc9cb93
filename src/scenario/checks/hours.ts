import { SECOND } from '../../kernel/clock.js';
import { type Span, WEEK, WeeklyHours } from '../../kernel/hours.js';
import { scanTimeOf } from '../../probe/scan-load.js';
import { aboutQuantity } from '../quantity.js';
import type { Step } from '../schema/steps.js';
import { type Check, error, ofEachPass } from './finding.js';

/** A scan that fits into no booking is never started. */
export const scansLongerThanEveryBooking: Check = (settings) => {
  const { pace, bookings } = settings;
  const { longest } = new WeeklyHours(bookings.hours);
  return ofEachPass(settings, (pass, index, { called }) => {
    const time = scanTimeOf(pass, pace.scan);
    if (Math.ceil(time * SECOND) <= longest) return [];
    return [
      error(
        `an image of the pass ${called} takes ${aboutQuantity('time', time)} at pace ${pace.scan}, longer than every booking (${aboutQuantity('time', longest / SECOND)} at most)`,
        ['plan', 'passes', index],
        ['bookings', 'hours'],
        ['pace', 'scan'],
      ),
    ];
  });
};

/** Manual steps on the instrument need a booking and an operator at once. */
export const operatorsNeverInABooking: Check = ({ bookings, operators, workflows }, workflow) => {
  const steps: Readonly<Record<string, Step>> = workflows[workflow].steps;
  const onBench = workflow === 'hop' && workflows.hop.prepareAt === 'bench';
  const isManual = Object.entries(steps).some(([name, { manual }]) => manual && !(onBench && name === 'prepare'));
  if (!isManual || overlap(bookings.hours, operators.hours)) return [];
  const message =
    'the hours in which an operator is present and those that are booked never meet, though steps by hand need both';
  return [{ ...error(message, ['operators', 'hours'], ['bookings', 'hours']), naming: true }];
};

/** Where bookings never close, no session ever ends. */
export const sessionsThatNeverEnd: Check = ({ bookings }) => {
  if (bookings.allocation?.unit !== 'session' || !new WeeklyHours(bookings.hours).isAlways) return [];
  return [
    error(
      'sessions are granted, though the bookings never close and so are one session without end; hours such as `40 h` are wanted',
      ['bookings', 'allocation'],
      ['bookings', 'hours'],
    ),
  ];
};

function overlap(some: readonly Span[], others: readonly Span[]): boolean {
  return some.some((a) =>
    others.some((b) => [-WEEK, 0, WEEK].some((shift) => a.from < b.to + shift && b.from + shift < a.to)),
  );
}
