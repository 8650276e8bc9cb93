import type { AboutScenario } from '../../analysis/about.js';
import { type Answer, fullestWithin } from '../../analysis/answer.js';
import { levelText } from '../../analysis/effect-words.js';
import type { Asked, BudgetResult, BudgetStrategy, Request, Within } from './results.js';
import {
  durationText,
  estimateLine,
  estimateText,
  moneyScale,
  numberText,
  SHARE,
  percentText,
  plainSpaces,
  timeText,
  workScale,
} from '../../wording/numbers.js';
import { counted, hoursRead, imagesText, listed, quoted } from '../../wording/phrases.js';
import { leadTimeSentences } from '../../report/lead-time.js';

/** The strategy that the proposal is written for. */
export function proposed(result: BudgetResult): BudgetStrategy {
  return result.strategies.find(({ name }) => name === result.proposal.strategy) ?? result.strategies[0];
}

export function requestAt(strategy: BudgetStrategy, chance: number): Request {
  return strategy.requests.find((request) => request.chance === chance) ?? strategy.requests[0];
}

/** A length of time rounded up to a minute, so that what is asked for is never less than what is needed. */
export function hoursText(seconds: number): string {
  return timeText(60 * Math.ceil(seconds / 60 - 1e-9));
}

/** What an amount is in words; a dash where there is no answer. */
export type Say = (amount: number) => string;

/** What is asked for, and the interval of what would do: `24 h (16 to 24)`. */
export function askedCell(asked: Asked, say: Say): string {
  if (asked.ask === null) return asked.value === null ? '–' : `more than ${say(asked.value)}`;
  return say(asked.ask);
}

/** The quantile behind what is asked for, with its interval. */
export function quantileCell({ value, low, ask }: Asked, say: Say): string {
  if (value === null) return '–';
  if (low === ask) return say(value);
  return `${say(value)} (${low === null ? '?' : say(low)} to ${ask === null ? '?' : say(ask)})`;
}

/** The time to ask for, in sessions with their hours, or in hours. */
export function timeAsked(result: BudgetResult, { sessions, booked, time }: Request): string {
  const each = result.scenario.instruments > 1 ? ' on each instrument' : '';
  if (!result.asksSessions) return `${askedCell(time, hoursText)}${each}`;
  if (sessions.ask === null || booked.ask === null) return askedCell(sessions, (count) => counted(count, 'session'));
  return `${counted(sessions.ask, 'session')} (${hoursText(booked.ask)} booked${each})`;
}

/** When what is asked for ends, where that says something, and the last review where that comes later. */
export function timeUntil(result: BudgetResult, request: Request): string {
  const { ends, sessions } = request;
  if (ends === null || sessions.ask === null) return '';
  const moment = withoutSeconds(ends);
  const until = result.asksSessions
    ? `; it ends ${moment}`
    : `, within ${counted(sessions.ask, 'booking')} until ${moment}`;
  return `${until}${reviewedText(request)}`;
}

/** Reviews of absent hours need no booking, so they may come after the last one. */
function reviewedText({ reviewed, reviewedBy, calendar }: Request): string {
  if (reviewedBy === null || (reviewed.ask ?? 0) <= (calendar.ask ?? Infinity)) return '';
  return `, and the last review is done by ${withoutSeconds(reviewedBy)}`;
}

function withoutSeconds(clock: string): string {
  return clock.replace(/:\d\d$/u, '');
}

export function itemsAsked({ items }: Request, scenario: AboutScenario): string {
  const said = items.map(({ what, ask, value }) =>
    ask === null
      ? `${what}: no answer${value === null ? '' : ` (more than ${numberText(value)})`}`
      : `${counted(ask, what.replace(/s$/u, ''))}${what === 'specimens' ? sparesText(ask, scenario) : ''}`,
  );
  return listed(said);
}

/** Of the specimens asked for, those that the plan needs whatever happens, and the spares. */
function sparesText(asked: number, { samples, instruments }: AboutScenario): string {
  const first = samples.length >= instruments ? samples.length : samples.length * instruments;
  return asked <= first ? '' : ` (${numberText(first)} to prepare, ${counted(asked - first, 'spare')})`;
}

export function moneyAsked(result: BudgetResult, { cost }: Request): string {
  return askedCell(cost, (amount) => numberText(Math.ceil(amount), moneyScale(result.scenario.currency)));
}

/** How much time `within` means, in words. */
export function grantedText({ sessions, time }: Within): string {
  return sessions === null ? hoursText(time) : `${counted(sessions, 'session')} (${hoursText(time)})`;
}

function halfText(result: BudgetResult, { time }: Request): string {
  const each = result.scenario.instruments > 1 ? ' on each instrument' : '';
  return `${askedCell(time, hoursText)}${result.hasBookings ? ' of booked time' : ''}${each}`;
}

/** Who pays by the booking pays for more than a campaign's cost holds. */
function unusedText({ hasBookings }: BudgetResult): string {
  return hasBookings ? ', without the hours that are booked but come after the end of the work' : '';
}

const CAUTION = 'This is an estimate from values of which many are assumed; it is no reason to shorten a safety step.';

/** What to ask for, in words. */
export function answerOf(result: BudgetResult): Answer {
  const strategy = proposed(result);
  const { chance } = result.proposal;
  const request = requestAt(strategy, chance);
  const half = requestAt(strategy, 0.5);
  const asked = result.asksSessions ? request.sessions : request.time;
  const remarks = [...leadTimeSentences([strategy]), CAUTION];
  if (asked.ask === null) {
    const ends = estimateLine(strategy.finishes, SHARE);
    const headline = `No time can be asked for with which ${quoted(strategy)} is complete in ${percentText(chance)} of campaigns: only ${ends} ever are, or too few replications were run.`;
    return { headline: [headline], remarks, findings: [], decided: false };
  }
  const time = timeAsked(result, request);
  const money = moneyAsked(result, request);
  const suffice = sufficeText(request, result);
  return {
    decided: true,
    headline: fullestWithin([
      [
        `Ask for ${time}, ${itemsAsked(request, result.scenario)} and at most ${money} to complete ${quoted(strategy)}: ${suffice}.`,
      ],
      [`Ask for ${time} and at most ${money} to complete ${quoted(strategy)}: ${suffice}.`],
      [`Ask for ${time} to complete ${quoted(strategy)}: ${suffice}.`],
    ]),
    remarks,
    findings: [
      `Each amount suffices by itself in at least ${percentText(chance)} of campaigns${timeUntil(result, request)}. Half of the campaigns need no more than ${halfText(result, half)}.`,
      `What is at hand already need not be ordered. The cost is at most ${money} in as many campaigns${unusedText(result)}.`,
      ...(strategy.within === null
        ? []
        : [
            `With ${grantedText(strategy.within)} the plan is complete in ${estimateLine(strategy.within.finished, SHARE)} of campaigns; on average ${estimateLine(strategy.within.measured, SHARE)} of its images are measured and the yield is ${estimateLine(strategy.within.yield, SHARE)}.`,
          ]),
    ],
  };
}

/** `time and orders together suffice in 95.4 % of campaigns (95 % interval 93.9 to 96.6)` */
function sufficeText({ together, chance }: Request, { level }: BudgetResult): string {
  if (together === null) return `this time suffices in at least ${percentText(chance)} of campaigns`;
  const { value, interval } = estimateText(together, SHARE);
  const ends = interval === '' ? '' : ` (${levelText(level)}${interval})`;
  return plainSpaces(`time and orders together suffice in ${value} of campaigns${ends}`);
}

function notKnownText({ notKnown }: BudgetResult): string {
  if (notKnown.length === 0) return '';
  return ` The uncertainty of ${counted(notKnown.length, 'input')} (${listed(notKnown)}) is drawn anew in every campaign and so is part of it.`;
}

/** Text for a proposal, paragraph by paragraph. Plain text. */
export function proposalParagraphs(result: BudgetResult): readonly string[] {
  const strategy = proposed(result);
  const { scenario, tool, proposal } = result;
  const request = requestAt(strategy, proposal.chance);
  const half = requestAt(strategy, 0.5);
  const workflow = strategy.workflow === 'hop' ? 'array-hop (many tips on one chip)' : 'swap and relocate';
  const chance = percentText(proposal.chance);
  const calendar = request.calendar.ask === null ? '' : `, ${durationText(request.calendar.ask)} on the calendar`;
  const bookings = result.hasBookings ? ` Bookings: ${hoursRead(scenario.bookings)}.` : '';
  return [
    `We ask for ${timeAsked(result, request)} of instrument time${result.hasBookings ? calendar : ''} for ${imagesText(scenario.images, scenario.regions, scenario.samples.length)} (passes: ${listed(scenario.passes)}), measured by “${strategy.name}” (${workflow}). If every image were taken once, scanning alone would take ${numberText(scenario.scanTime, workScale(scenario.scanTime))}; the rest is exchange, relocation, checks and what has to be taken again because tips wear, are contaminated and break.${bookings}`,
    `In a discrete-event simulation of the whole plan this time was enough in at least ${chance} of campaigns; half of them need no more than ${halfText(result, half)}. The plan then yields ${estimateLine(strategy.yield, SHARE)} of what it could, counting good images only, weighed by their quality.`,
    `To be ordered, each to suffice in ${chance} of campaigns: ${itemsAsked(request, scenario)}, less what is at hand already. In as many campaigns, tips or chips, instrument and operator hours cost at most ${moneyAsked(result, request)}, at the prices of the scenario${unusedText(result)}.`,
    ...(strategy.within === null
      ? []
      : [
          `If only ${grantedText(strategy.within)} can be granted, ${estimateLine(strategy.within.measured, SHARE)} of the images are measured on average, the yield is ${estimateLine(strategy.within.yield, SHARE)} and the plan is complete in ${estimateLine(strategy.within.finished, SHARE)} of campaigns.`,
        ]),
    `Estimated with ${tool.name} ${tool.version} in ${numberText(result.replications)} replications (seed ${result.seed}). Intervals are ${percentText(result.level)}; what is asked for is the upper end of the distribution-free interval of the quantile. ${numberText(result.assumed.values)} of the ${numberText(result.assumed.of)} values behind it are only assumed.${notKnownText(result)} Nothing in this plan shortens a safety step; local rules come first.`,
  ];
}
