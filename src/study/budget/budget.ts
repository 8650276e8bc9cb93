import { LuckTable } from '../../chance/luck.js';
import type { CampaignModel } from '../../campaign/model.js';
import { SECOND } from '../../kernel/clock.js';
import type { Allocation } from '../../scenario/exposure.js';
import type { LoadedScenario, Strategy } from '../../scenario/load.js';
import { lookAt } from '../../statistics/stopping.js';
import { allocationOf, recordOf, type StudyOptions } from '../about.js';
import { LEVEL } from '../differences.js';
import { chanceOf, estimateOf } from '../estimate.js';
import { replicate, type Runnable, runnable } from '../replicate.js';
import { clockText } from '../timeline.js';
import { askedFor, mapAsked, NOTHING_ASKED } from './asked.js';
import { Players } from './players.js';
import { bookedTimeOf, calendarOf, itemNames, type Needs, needsOf, withEnoughStock } from './needs.js';
import {
  type Asked,
  BUDGET_FORMAT,
  type BudgetResult,
  type BudgetStrategy,
  CHANCES,
  type Request,
  type Within,
} from './results.js';

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
/** Replications at each point of the curve of what comes of more and more time, and the points. */
const CURVE_REPLICATIONS = 400;
const POINTS = 12;

/** What to ask for: hours, tips, chips and money for a chance of finishing; and what comes of less. */
export function budget(loaded: LoadedScenario, options: BudgetOptions): BudgetResult {
  const record = recordOf(BUDGET_FORMAT, loaded, options);
  const table = new LuckTable(record.seed);
  const players = new Players(loaded, table, withEnoughStock);
  const strategies = players.usual;
  const needs: readonly Needs[][] = strategies.map(() => []);
  const stopping = runUntilKnown(players, needs, table, options);
  const granted = options.granted ?? loaded.base.bookings.allocation;
  const [first] = strategies;
  const replications = needs[0].length;
  let done = 0;
  const studied = strategies.map((strategy, i): BudgetStrategy => {
    const requests = CHANCES.map((chance) => requestFor(strategy, needs[i], chance));
    const cut = (allocation: Allocation) => within(loaded, i, allocation, table, replications);
    const points = curvePoints(requests);
    const curve = points.map((point) => {
      options.onProgress?.({ phase: 'granted time', done: (done += 1), of: strategies.length * points.length });
      return cut(point);
    });
    return {
      name: strategy.name,
      workflow: strategy.model.workflow,
      finishes: chanceOf(needs[i].filter(({ isFinished }) => isFinished).length, replications),
      yield: estimateOf(needs[i].map((need) => need.yield)),
      requests,
      within: granted === undefined ? null : cut(granted),
      curve,
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
    granted: granted === undefined ? null : allocationOf(runnable([withGranted(loaded.strategies[0], granted)])[0]),
    proposal: { strategy: options.strategy ?? first.name, chance: options.chance ?? 0.9 },
    notKnown: players.inputs.map(({ description }) => description),
    assumed: { values: assumed, of: loaded.register.length },
    strategies: studied,
    warnings: options.warnings ?? [],
  };
}

/** Looks after 200, 400, 800 … replications, until the time for the greatest chance is known well enough in every strategy. */
function runUntilKnown(players: Players, needs: readonly Needs[][], table: LuckTable, options: BudgetOptions): string {
  const runTo = (end: number) => {
    for (let replication = needs[0].length + 1; replication <= end; replication += 1) {
      for (const [i, strategy] of players.at(replication).entries())
        needs[i].push(needsOf(strategy.model, replicate(strategy, table, replication)));
      options.onProgress?.({ phase: 'replications', done: replication, of: end });
    }
  };
  if (options.replications !== undefined) {
    runTo(options.replications);
    return `${options.replications} replications were asked for`;
  }
  const greatest = Math.max(...CHANCES);
  for (let look = 0; ; look += 1) {
    const end = Math.min(lookAt(look), MOST_REPLICATIONS);
    runTo(end);
    const isKnown = players.usual.every((strategy, i) => isTimeKnown(strategy, needs[i], greatest));
    if (isKnown)
      return `stopped after ${end} replications, when the time for a chance of ${greatest * 100} % was known to ±${PRECISION * 100} % or to the session`;
    if (end === MOST_REPLICATIONS)
      return `stopped at the limit of ${end} replications, before the time for a chance of ${greatest * 100} % was known to ±${PRECISION * 100} % or to the session in every strategy`;
  }
}

/** Where there are bookings, none longer than a working day, time is asked for in whole sessions. */
function asksSessions({ bookings }: CampaignModel): boolean {
  return bookings.longest <= LONGEST_SESSION;
}

/** To a share of it, or to one and the same session. */
function isTimeKnown({ model }: Runnable, needs: readonly Needs[], chance: number): boolean {
  const isInSessions = asksSessions(model);
  const { value, low, ask } = askedFor(
    needs.map(({ time, sessions }) => (isInSessions ? sessions : time)),
    chance,
  );
  if (value === null || low === null || ask === null) return false;
  return isInSessions ? ask === low : (ask - low) / 2 <= PRECISION * value;
}

function requestFor({ model }: Runnable, needs: readonly Needs[], chance: number): Request {
  const hasBookings = !model.bookings.isAlways;
  const isInSessions = asksSessions(model);
  const sessions = hasBookings
    ? askedFor(
        needs.map((need) => need.sessions),
        chance,
      )
    : NOTHING_ASKED;
  const time = askedFor(
    needs.map((need) => need.time),
    chance,
  );
  const items = itemNames(model).map((what, item) => ({
    what,
    ...askedFor(
      needs.map((need) => (need.isFinished ? need.items[item] : Infinity)),
      chance,
    ),
  }));
  const isEnough = (need: Needs): boolean =>
    (isInSessions ? suffices(need.sessions, sessions) : suffices(need.time, time)) &&
    items.every((item, place) => suffices(need.items[place], item));
  const isAnswered = [isInSessions ? sessions : time, ...items].every(({ ask }) => ask !== null);
  return {
    chance,
    sessions,
    booked: mapAsked(sessions, (count) => bookedTimeOf(model, count)),
    time,
    calendar: hasBookings ? mapAsked(sessions, (count) => calendarOf(model, count)) : time,
    ends: sessions.ask === null ? null : clockText(model.bookings.sessionEnd(model.start, sessions.ask)),
    items,
    cost: askedFor(
      needs.map((need) => (need.isFinished ? need.cost : Infinity)),
      chance,
    ),
    together: isAnswered ? chanceOf(needs.filter(isEnough).length, needs.length) : null,
  };
}

function suffices(needed: number, { ask }: Asked): boolean {
  return ask !== null && needed <= ask;
}

/** Times at which the curve is drawn, in equal steps up to a little beyond what the greatest chance asks for. */
function curvePoints(requests: readonly Request[]): readonly Allocation[] {
  const times = requests.flatMap(({ time }) => [time.ask ?? time.value ?? []].flat());
  if (times.length === 0) return [];
  const step = Math.max(...times) / 3600 / (POINTS - 1);
  return Array.from({ length: POINTS }, (_, i) => ({ unit: 'hour', amount: step * (i + 1) }));
}

function withGranted(strategy: Strategy, allocation: Allocation): Strategy {
  const { settings } = strategy;
  return { ...strategy, settings: { ...settings, bookings: { ...settings.bookings, allocation } } };
}

/** What comes of so much time, read off some of the campaigns. */
function within(
  loaded: LoadedScenario,
  strategy: number,
  allocation: Allocation,
  table: LuckTable,
  most: number,
): Within {
  const players = new Players(loaded, table, (each) => withGranted(withEnoughStock(each), allocation));
  const replications = Math.min(CURVE_REPLICATIONS, most);
  const cut = players.usual[strategy];
  const images = cut.model.images.length;
  const measured: number[] = [];
  const yields: number[] = [];
  let finished = 0;
  for (let replication = 1; replication <= replications; replication += 1) {
    const [player] = players.at(replication, strategy);
    const { cut: tally } = replicate(player, table, replication);
    if (tally === null) throw new Error('granted time has an end');
    measured.push(1 - tally.missing / images);
    yields.push(tally.yield);
    if (tally.isFinished) finished += 1;
  }
  const { bookings } = cut.model;
  const end = allocationOf(cut)?.end ?? 0;
  return {
    sessions: allocation.unit === 'session' ? allocation.amount : null,
    time: bookings.isAlways ? end : bookings.openBetween(cut.model.start, cut.model.allocationEnd ?? 0) / SECOND,
    finished: chanceOf(finished, replications),
    measured: estimateOf(measured),
    yield: estimateOf(yields),
  };
}
