import type { CampaignModel } from '../../campaign/model.js';
import { microseconds, SECOND } from '../../kernel/clock.js';
import type { Allocation } from '../../scenario/exposure.js';
import type { LoadedScenario, Strategy } from '../../scenario/load.js';
import { countOf } from '../../statistics/numbers.js';
import { OrderStatistics } from '../../statistics/order-statistics.js';
import { lookAt } from '../../statistics/stopping.js';
import { allocationOf, recordOf, type StudyOptions } from '../../analysis/about.js';
import {
  isInterrupted,
  completedPrefix,
  stoppedAt,
  stoppedBehind,
  unlessStopped,
  warnedOf,
} from '../../analysis/interrupted.js';
import { Collector } from '../../execution/collector.js';
import { allocatedTime, bookedTimeOf, chancesWithin } from '../../analysis/complete.js';
import { LEVEL } from '../../analysis/differences.js';
import { chanceOf, shareOf } from '../../analysis/estimate.js';
import { leadTimeOf } from '../../analysis/lead-time.js';
import { type Runnable, runnable } from '../../execution/replicate.js';
import { clockText } from '../../analysis/timeline.js';
import { runInProcess } from '../../execution/in-process.js';
import { runTo } from '../../execution/run-to.js';
import { Meter } from '../../execution/progress.js';
import type { JobResult, Job } from '../../execution/job.js';
import { completed, together, type Work } from '../../execution/work.js';
import { askedFor, mapAsked, NOTHING_ASKED } from './asked.js';
import {
  calendarOf,
  itemNames,
  type Needs,
  needsOf,
  ranked,
  type RankedNeeds,
  wantsFor,
  withEnoughStock,
} from './needs.js';
import { experimentOf } from './players.js';
import {
  type Asked,
  BUDGET_FORMAT,
  type BudgetResult,
  type BudgetStrategy,
  CHANCES,
  type Request,
  type Within,
} from './results.js';
import { numberText } from '../../wording/numbers.js';

export interface BudgetOptions extends StudyOptions {
  /** Time of which it is asked what comes of it; in place of what the scenario grants. */
  readonly granted?: Allocation;
  /** The proposal's paragraph is written for this strategy; the first one unless given. */
  readonly strategy?: string;
  /** And for this chance of finishing, one of CHANCES. */
  readonly chance?: number;
  /** Run exactly so many replications. */
  readonly replications?: number;
}

/** How well the time for the greatest chance is to be known: half the width of its interval, as a share of it. */
const PRECISION = 0.02;
const MOST_REPLICATIONS = 6400;
/** A session of more than this is no working day, and a share of it can be asked for. Microseconds. */
const LONGEST_SESSION = 16 * 3600 * SECOND;
/** Points of the curve of what comes of more and more time. */
const POINTS = 12;
/** Replications of which there is anything to ask for where somebody stops it. */
const FEWEST = 100;
/** What is missing then. */
const UNTRIED = 'what comes of less time was not tried';

/** What to ask for: hours, tips, chips and money for a chance of finishing; and what comes of less. */
export function budget(loaded: LoadedScenario, options: BudgetOptions): BudgetResult {
  return runInProcess(budgetWork(loaded, options));
}

/**
 * The same as work that others carry out. Stopped by hand, it says what the replications that are complete ask for, without
 * what comes of less time.
 * @throws Stopped where too few are complete for that
 */
export function* budgetWork(loaded: LoadedScenario, options: BudgetOptions): Work<BudgetResult> {
  const record = recordOf(BUDGET_FORMAT, loaded, options);
  const { seed } = record;
  const granted = options.granted ?? loaded.base.bookings.allocation;
  const followed = loaded.strategies.map((strategy) => withGranted(withEnoughStock(strategy), granted));
  const strategies = runnable(followed);
  const wants = wantsFor(strategies.map(({ model }) => model));
  const all = strategies.map(() => new Collector(wants));
  const ended = yield* runUntilKnown(
    { experiment: experimentOf(loaded, followed), seed, wants },
    strategies,
    all,
    options,
  );
  const campaigns = completedPrefix(all, ended);
  const [first] = strategies;
  const replications = campaigns[0].count;
  const meter = new Meter('granted time', options.onProgress);
  const asking = strategies.map(({ model }, i) => {
    const needs = needsOf(model, campaigns[i]);
    const byRank = ranked(needs);
    const requests = CHANCES.map((chance) => requestFor(model, needs, byRank, chance));
    return { needs, requests, points: curvePoints(requests) };
  });
  const allCuts = isInterrupted(ended)
    ? null
    : yield* unlessStopped(
        together(
          asking.map(({ points }, i) =>
            cutAfter(
              points,
              { experiment: experimentOf(loaded, [followed[i]]), seed, from: 1, to: replications },
              meter,
            ),
          ),
        ),
      );
  const stopping = allCuts === null && !isInterrupted(ended) ? stoppedBehind(replications, UNTRIED) : ended;
  const studied = strategies.map(({ name, model }, i): BudgetStrategy => {
    const { needs, requests, points } = asking[i];
    const images = model.images.length;
    const allocated = allocatedTime(model);
    return {
      name,
      workflow: model.workflow,
      finishes: chanceOf(countOf(needs.time, Number.isFinite), replications),
      yield: shareOf(campaigns[i].values.yield),
      requests,
      leadTime: leadTimeOf(model, campaigns[i].values.benchTime),
      within:
        allocated === null
          ? null
          : {
              sessions: granted?.unit === 'session' ? granted.amount : null,
              time: allocated,
              ...comesOf(needs, allocated, images, (what) => campaigns[i].column(what)),
            },
      curve:
        allCuts === null
          ? []
          : points.map((time, place) => ({
              sessions: null,
              time,
              ...comesOf(needs, time, images, (what) => allCuts[i].column(`${what} ${place}`)),
            })),
    };
  });
  const assumed = loaded.register.filter(({ standing }) => standing === 'assumed').length;
  return {
    ...record,
    replications,
    stopping,
    level: LEVEL,
    hasBookings: !first.model.bookings.isAlways,
    asksSessions: asksSessions(first.model),
    granted: allocationOf(first),
    proposal: { strategy: options.strategy ?? first.name, chance: options.chance ?? 0.9 },
    notKnown: loaded.inputs.map(({ description }) => description),
    assumed: { values: assumed, of: loaded.register.length },
    strategies: studied,
    warnings: [...(options.warnings ?? []), ...warnedOf(stopping)],
  };
}

/** Looks after 200, 400, 800 … replications, until the time for the greatest chance is known well enough in every strategy. */
function* runUntilKnown(
  what: Pick<Job, 'experiment' | 'seed' | 'wants'>,
  strategies: readonly Runnable[],
  campaigns: readonly Collector[],
  options: BudgetOptions,
): Work<string> {
  const greatest = Math.max(...CHANCES);
  for (let look = 0; ; look += 1) {
    const end = options.replications ?? Math.min(lookAt(look), MOST_REPLICATIONS);
    if (yield [runTo(end, what, campaigns, options.onProgress)]) return stoppedAt(campaigns, UNTRIED, FEWEST);
    if (options.replications !== undefined) return `${numberText(end)} replications were asked for`;
    const isKnown = strategies.every(({ model }, i) => isTimeKnown(model, needsOf(model, campaigns[i]), greatest));
    if (isKnown)
      return `stopped after ${numberText(end)} replications, when the time for a chance of ${greatest * 100} % was known to ±${PRECISION * 100} % or to the session`;
    if (end === MOST_REPLICATIONS)
      return `stopped at the limit of ${numberText(end)} replications, before the time for a chance of ${greatest * 100} % was known to ±${PRECISION * 100} % or to the session in every strategy`;
  }
}

/** Where there are bookings, none longer than a working day, time is asked for in whole sessions. */
function asksSessions({ bookings }: CampaignModel): boolean {
  return bookings.longest <= LONGEST_SESSION;
}

/** To a share of it, or to one and the same session. */
function isTimeKnown(model: CampaignModel, { time, sessions }: Needs, chance: number): boolean {
  const isInSessions = asksSessions(model);
  const { value, low, ask } = askedFor(new OrderStatistics(isInSessions ? sessions : time), chance);
  if (value === null || low === null || ask === null) return false;
  return isInSessions ? ask === low : (ask - low) / 2 <= PRECISION * value;
}

function requestFor(model: CampaignModel, needs: Needs, byRank: RankedNeeds, chance: number): Request {
  const hasBookings = !model.bookings.isAlways;
  const isInSessions = asksSessions(model);
  const sessions = hasBookings ? askedFor(byRank.sessions, chance) : NOTHING_ASKED;
  const time = askedFor(byRank.time, chance);
  const reviewed = askedFor(byRank.reviewed, chance);
  const items = itemNames(model).map((what, item) => ({ what, ...askedFor(byRank.items[item], chance) }));
  const isEnough = (campaign: number): boolean =>
    (isInSessions ? suffices(needs.sessions[campaign], sessions) : suffices(needs.time[campaign], time)) &&
    items.every((item, place) => suffices(needs.items[place][campaign], item));
  const isAnswered = [isInSessions ? sessions : time, ...items].every(({ ask }) => ask !== null);
  return {
    chance,
    sessions,
    booked: mapAsked(sessions, (count) => bookedTimeOf(model, count)),
    time,
    calendar: hasBookings ? mapAsked(sessions, (count) => calendarOf(model, count)) : time,
    ends: sessions.ask === null ? null : clockText(model.bookings.sessionEnd(model.start, sessions.ask)),
    reviewed,
    reviewedBy: reviewed.ask === null ? null : clockText(model.start + microseconds(reviewed.ask)),
    items,
    cost: askedFor(byRank.cost, chance),
    together: isAnswered ? chanceOf(countOf(Uint32Array.from(needs.time.keys()), isEnough), needs.count) : null,
  };
}

function suffices(needed: number, { ask }: Asked): boolean {
  return ask !== null && needed <= ask;
}

/** Booked seconds at which the curve is drawn, in equal steps up to a little beyond what the greatest chance asks for. */
function curvePoints(requests: readonly Request[]): readonly number[] {
  const times = requests.flatMap(({ time }) => [time.ask ?? time.value ?? []].flat());
  if (times.length === 0) return [];
  const step = Math.max(...times) / (POINTS - 1);
  return Array.from({ length: POINTS }, (_, i) => step * (i + 1));
}

function withGranted(strategy: Strategy, allocation: Allocation | undefined): Strategy {
  if (allocation === undefined) return strategy;
  const { settings } = strategy;
  return { ...strategy, settings: { ...settings, bookings: { ...settings.bookings, allocation } } };
}

/** The same campaigns once more, told as they stand at the end of each of so many booked seconds. */
function* cutAfter(points: readonly number[], what: Omit<Job, 'wants'>, meter: Meter): Work<Collector> {
  const wants = { cutAfter: points };
  const campaigns = new Collector(wants);
  const take = ([batch]: JobResult) => {
    campaigns.append(batch);
  };
  yield* completed(meter.over([{ job: { ...what, wants }, take }]));
  return campaigns;
}

/** What comes of so many booked seconds; `column` gives what campaigns come to that are cut at their end. */
function comesOf(
  { time }: Needs,
  allocated: number,
  images: number,
  column: (what: 'cutYield' | 'cutMissing') => Float64Array,
): Pick<Within, 'finished' | 'measured' | 'yield'> {
  return {
    finished: chancesWithin(time, [allocated])[0],
    measured: shareOf(column('cutMissing').map((missing) => 1 - missing / images)),
    yield: shareOf(column('cutYield')),
  };
}
