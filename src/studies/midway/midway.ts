import { calendarOf } from '../../analysis/calendar.js';
import type { KnownCampaign } from '../../execution/midway/known.js';
import type { CampaignModel } from '../../campaign/model.js';
import { SECOND } from '../../kernel/clock.js';
import type { LoadedScenario } from '../../scenario/load.js';
import { pairedInterval } from '../../statistics/interval.js';
import { average, countOf, total } from '../../statistics/numbers.js';
import { lookAt } from '../../statistics/stopping.js';
import { recordOf, type StudyOptions } from '../../analysis/about.js';
import { completedPrefix, stoppedAt, warnedOf } from '../../analysis/interrupted.js';
import { Collector } from '../../execution/collector.js';
import { comparisons, differencesOf, LEVEL } from '../../analysis/differences.js';
import { chanceOf, estimateOf } from '../../analysis/estimate.js';
import { plain } from '../../execution/replicate.js';
import { strategySummary } from '../../analysis/strategy-summary.js';
import { runInProcess } from '../../execution/in-process.js';
import { runTo } from '../../execution/run-to.js';
import type { ContinuationsExperiment } from '../../execution/experiments/continuations.js';
import type { Work } from '../../execution/work.js';
import { mayBeSpoiled, modelFrom } from '../../execution/experiments/continuations.js';
import { momentName } from './moment.js';
import { coursesOf } from './courses.js';
import { nowOf, rulesOf } from './now.js';
import { remainingOf } from './remaining.js';
import { MIDWAY_FORMAT, type MidwayResult } from './results.js';
import { outlooksOf } from './supplies.js';
import { numberText } from '../../wording/numbers.js';

export interface MidwayOptions extends StudyOptions {
  readonly strategy: string;
  /** The model of that strategy, as a campaign begins with it. */
  readonly model: CampaignModel;
  readonly known: KnownCampaign;
  readonly state: MidwayResult['state'];
  /** Run exactly so many replications. */
  readonly replications?: number;
}

/** Half-widths at which replications stop: of the chance to finish, and of time as a share of its mean. */
const CHANCE_PRECISION = 0.025;
const TIME_PRECISION = 0.02;
const MOST_REPLICATIONS = 3200;
const WANTS = { cut: true, sums: true };

/** How a campaign that is under way goes on, from what is known of it. */
export function midway(loaded: LoadedScenario, options: MidwayOptions): MidwayResult {
  return runInProcess(midwayWork(loaded, options));
}

/** The same as work that others carry out. Stopped by hand, it says what the replications that are complete came to. */
export function* midwayWork(loaded: LoadedScenario, options: MidwayOptions): Work<MidwayResult> {
  const record = recordOf(MIDWAY_FORMAT, loaded, options);
  const { known, strategy } = options;
  const followed = plain({ name: strategy, model: options.model });
  const model = modelFrom(followed, known);
  const courses = coursesOf(loaded, followed, known);
  const ways = courses.map((course) => ({ name: course.strategy.name, model: modelFrom(course.strategy, known) }));
  const all = courses.map(() => new Collector(WANTS));
  const experiment = { kind: 'continuations' as const, strategy: followed, known, courses };
  const stopping = yield* runUntilKnown(experiment, record.seed, all, options);
  const collectors = completedPrefix(all, stopping);
  const names = ways.map(({ name }) => name);
  const summaries = ways.map((course, i) => strategySummary(course, collectors[i]));
  const sessions = Math.max(...summaries.map(({ finishedBySession }) => finishedBySession.length));
  const assumed = loaded.register.filter(({ standing }) => standing === 'assumed').length;
  const [first] = collectors;
  const now = nowOf(model, known);
  const allocation = grantedFrom(model, known);
  return {
    ...record,
    strategy,
    workflow: model.workflow,
    state: options.state,
    now,
    replications: first.count,
    stopping,
    confidence: { level: LEVEL, comparisons: comparisons(names.length) },
    hasBookings: !model.bookings.isAlways,
    allocation,
    calendar: calendarOf(ways[0].model, summaries, allocation),
    strategies: summaries,
    sessionEnds: Array.from({ length: sessions }, (_, i) => momentName(model.bookings.sessionEnd(known.now, i + 1))),
    differences: differencesOf(names, collectors, loaded.base.smallestDifference),
    remaining: remainingOf(first.finishedAt, known.now),
    supplies: outlooksOf(model, known, first),
    givenUp: {
      mean: estimateOf(first.values.givenUp),
      any: chanceOf(
        countOf(first.values.givenUp, (count) => count > now.images.givenUp),
        first.count,
      ),
    },
    spoiledUnnoticed: mayBeSpoiled(known) ? chanceOf(total(first.column('spoiled')), first.count) : null,
    guessed: total(first.column('guessed')) / first.count,
    rules: rulesOf(model),
    assumed: { values: assumed, of: loaded.register.length },
    warnings: [...(options.warnings ?? []), ...warnedOf(stopping)],
  };
}

/** Looks after 200, 400, 800 … replications. */
function* runUntilKnown(
  experiment: ContinuationsExperiment,
  seed: string,
  collectors: readonly Collector[],
  options: MidwayOptions,
): Work<string> {
  const what = `the chance to finish was known to ±${100 * CHANCE_PRECISION} percentage points and every difference in time to ±${100 * TIME_PRECISION} % of what is left`;
  for (let look = 0; ; look += 1) {
    const end = options.replications ?? Math.min(lookAt(look), MOST_REPLICATIONS);
    if (yield [runTo(end, { experiment, seed, wants: WANTS }, collectors, options.onProgress)])
      return stoppedAt(collectors, null);
    if (options.replications !== undefined) return `${numberText(end)} replications were asked for`;
    if (isKnown(collectors)) return `stopped after ${numberText(end)} replications, when ${what}`;
    if (end === MOST_REPLICATIONS) return `stopped at the limit of ${numberText(end)} replications, before ${what}`;
  }
}

function isKnown(collectors: readonly Collector[]): boolean {
  const [first, ...others] = collectors;
  const granted = first.column('cutFinished');
  const finished = granted.length > 0 ? total(granted) : countOf(first.finishedAt, Number.isFinite);
  const { low, high } = chanceOf(finished, first.count);
  const own = first.values.instrumentTime;
  const mean = average(own);
  const widths = others.map(({ values }) => pairedInterval(values.instrumentTime, own, LEVEL).halfWidth);
  return (high - low) / 2 <= CHANCE_PRECISION && widths.every((width) => width <= TIME_PRECISION * mean);
}

function grantedFrom(model: CampaignModel, { now, grantedUntil }: KnownCampaign): MidwayResult['allocation'] {
  if (grantedUntil === null) return null;
  const left = Math.max(0, model.bookings.openBetween(now, grantedUntil)) / SECOND;
  return {
    text: `until ${momentName(grantedUntil)}, ${Math.floor(left / 360 + 0.5) / 10} h`,
    unit: 'hour',
    end: Math.max(0, grantedUntil - now) / SECOND,
  };
}
