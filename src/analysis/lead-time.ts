import type { CampaignModel } from '../campaign/model.js';
import { microseconds, SECOND } from '../kernel/clock.js';
import { WEEK } from '../kernel/hours.js';
import type { Numbers } from '../statistics/numbers.js';
import { OrderStatistics } from '../statistics/order-statistics.js';
import { WEEKDAYS } from '../wording/phrases.js';

/** The share of campaigns in which specimens are ready at the start, if preparing begins as it is said to. */
const SURE = 0.9;
const MINUTE = 60 * SECOND;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;

/** When specimens are to be prepared at the bench, so that the experiment can start. */
export interface LeadTime {
  /** Time at the bench that nine campaigns in ten need no more than, in seconds. */
  readonly benchTime: number;
  /** When to begin, within the operators' hours: `Thu 14:00`, `Fri 16:10 the week before`. */
  readonly beginBy: string;
}

/**
 * Null where nothing is prepared before the start.
 * @param benchTimes seconds at the bench before the start, of each replication
 */
export function leadTimeOf(
  { presence, start }: Pick<CampaignModel, 'presence' | 'start'>,
  benchTimes: Numbers,
): LeadTime | null {
  const benchTime = new OrderStatistics(benchTimes).at(Math.max(1, Math.ceil(benchTimes.length * SURE - 1e-9)));
  if (benchTime <= 0) return null;
  return { benchTime, beginBy: momentBefore(start, presence.beforeOpen(start, microseconds(benchTime))) };
}

/** A moment before another one, which may lie in an earlier week; rounded down to a minute. */
function momentBefore(start: number, moment: number): string {
  const week = Math.floor(moment / WEEK);
  const within = moment - week * WEEK;
  const two = (value: number) => String(Math.floor(value)).padStart(2, '0');
  const day = WEEKDAYS[Math.floor(within / DAY)];
  const weeks = Math.floor(start / WEEK) - week;
  const which = weeks === 0 ? '' : weeks === 1 ? ' the week before' : `, ${weeks} weeks before`;
  return `${day} ${two((within % DAY) / HOUR)}:${two((within % HOUR) / MINUTE)}${which}`;
}
