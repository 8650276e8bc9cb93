import { durationAt, leastDuration } from '../../chance/duration.js';
import { SECOND } from '../../kernel/clock.js';
import { type Span, WeeklyHours } from '../../kernel/hours.js';
import { scanTimeOf } from '../../probe/scan-load.js';
import { aboutQuantity } from '../quantity.js';
import type { Scenario, WorkflowName } from '../schema/scenario.js';
import { durationOf, type Step } from '../schema/steps.js';
import { stepPace } from '../schema/steps.js';
import { type Check, error, ofEachPass, warning } from './finding.js';

const USUALLY = 0.5;
const NEARLY_ALWAYS = 0.999;

/**
 * After an idle closing the instrument warms up, approaches and finds the region again before it scans. A scan that does not
 * fit into what these usually leave of the longest booking is started only by luck; never, if their least times leave too
 * little and no closing is so short that a step may lead from one booking into the next.
 */
export const scansThatNoReopeningReaches: Check = (settings, workflow) => {
  const { pace, bookings } = settings;
  const hours = new WeeklyHours(bookings.hours);
  const longest = hours.longest / SECOND;
  const usual = timeOf(settings, workflow, (step) => durationAt(durationOf(step), USUALLY));
  const least = timeOf(settings, workflow, (step) => leastDuration(durationOf(step)));
  const slow = timeOf(settings, workflow, (step) => durationAt(durationOf(step), NEARLY_ALWAYS));
  const isBridged = shortestClosing(bookings.hours) / SECOND <= slow;
  return ofEachPass(settings, (pass, index, { called }) => {
    const scan = scanTimeOf(pass, pace.scan);
    // A scan longer than the booking itself is told of elsewhere.
    if (scan > longest || usual + scan <= longest) return [];
    const isCertain = least + scan > longest && !isBridged;
    const before = isCertain ? least : usual;
    return [
      (isCertain ? error : warning)(
        `after a closing an image of the pass ${called} (${aboutQuantity('time', scan)}) comes after warming up, approaching and finding the region again (${isCertain ? 'at least' : 'usually'} ${aboutQuantity('time', before)}), together longer than every booking (${aboutQuantity('time', longest)} at most)`,
        ['plan', 'passes', index],
        ['bookings', 'hours'],
        ['workflows', workflow, 'steps'],
        ['pace'],
      ),
    ];
  });
};

/** Seconds of one try of each step between an opening and the scan. */
function timeOf({ workflows, pace }: Scenario, workflow: WorkflowName, inSeconds: (step: Step) => number): number {
  const { steps } = workflows[workflow];
  const { warmUp, approach } = steps;
  const findAgain = 'register' in steps ? { register: steps.register } : { relocate: steps.relocate };
  return Object.entries({ warmUp, approach, ...findAgain }).reduce(
    (sum, [name, step]) => sum + inSeconds(step) / stepPace(name, step.manual, pace),
    0,
  );
}

/** Microseconds; Infinity where it never closes. */
function shortestClosing(spans: readonly Span[]): number {
  const hours = new WeeklyHours(spans);
  if (hours.isAlways) return Infinity;
  return spans.reduce((least, { from }) => {
    const closes = hours.closing(from);
    return Math.min(least, hours.opening(closes) - closes);
  }, Infinity);
}
