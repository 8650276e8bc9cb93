import { continueCampaign, runCampaign } from '../../campaign/campaign.js';
import type { KnownCampaign } from '../../campaign/known.js';
import type { CampaignModel } from '../../campaign/model.js';
import { presumed } from '../../campaign/presumed.js';
import type { CampaignState } from '../../campaign/state.js';
import { type Luck, LuckTable } from '../../chance/luck.js';
import { SECOND } from '../../kernel/clock.js';
import { isGood, startingQuality } from '../../probe/image.js';
import { Tip } from '../../probe/tip.js';
import type { LoadedScenario } from '../../scenario/load.js';
import { bonferroni, pairedInterval } from '../../statistics/interval.js';
import { lookAt } from '../../statistics/stopping.js';
import { recordOf, type StudyOptions } from '../about.js';
import { Collector } from '../collector.js';
import { comparisons, differencesOf, LEVEL, measureOf, timeMeasureOf, type TimeMeasure } from '../differences.js';
import { chanceOf, estimateOf } from '../estimate.js';
import { strategySummary } from '../strategy-summary.js';
import { momentName } from './moment.js';
import { type Course, coursesOf } from './courses.js';
import { nowOf, rulesOf } from './now.js';
import { remainingOf } from './remaining.js';
import { MIDWAY_FORMAT, type MidwayResult } from './results.js';
import { Ending, Supplies } from './supplies.js';

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

/** How a campaign that is under way goes on, from what is known of it. */
export function midway(loaded: LoadedScenario, options: MidwayOptions): MidwayResult {
  const record = recordOf(MIDWAY_FORMAT, loaded, options);
  const { known, strategy } = options;
  const model = { ...options.model, start: known.now, allocationEnd: known.grantedUntil };
  const courses = coursesOf(loaded, strategy, model, known);
  const time = timeMeasureOf(courses);
  const runs = new Continuations(options.model, courses, known, record.seed);
  const stopping = runUntilKnown(runs, time, options);
  const { collectors } = runs;
  const names = courses.map(({ name }) => name);
  const summaries = courses.map((course, i) => strategySummary(course, collectors[i], time));
  const sessions = Math.max(...summaries.map(({ finishedBySession }) => finishedBySession.length));
  const assumed = loaded.register.filter(({ standing }) => standing === 'assumed').length;
  const n = runs.count;
  return {
    ...record,
    strategy,
    workflow: model.workflow,
    state: options.state,
    now: nowOf(model, known),
    replications: n,
    stopping,
    confidence: { level: LEVEL, comparisons: comparisons(names.length) },
    timeMeasure: time,
    hasBookings: !model.bookings.isAlways,
    allocation: grantedFrom(model, known),
    strategies: summaries,
    sessionEnds: Array.from({ length: sessions }, (_, i) => momentName(model.bookings.sessionEnd(known.now, i + 1))),
    differences: differencesOf(names, collectors, time),
    chanceDifferences: known.grantedUntil === null ? [] : chanceDifferences(names, collectors),
    remaining: remainingOf(collectors[0].finishedAt, known.now),
    supplies: runs.supplies.outlooks(),
    givenUp: {
      mean: estimateOf(collectors[0].values.givenUp),
      any: chanceOf(collectors[0].values.givenUp.filter((count) => count > runs.givenUpBefore).length, n),
    },
    spoiledUnnoticed: runs.spoiled === null ? null : chanceOf(runs.spoiled, n),
    guessed: runs.guessed / n,
    rules: rulesOf(model),
    assumed: { values: assumed, of: loaded.register.length },
    warnings: options.warnings ?? [],
  };
}

/** All ways to go on, replication by replication on the same luck and from the same presumed state. */
class Continuations {
  readonly collectors: readonly Collector[];
  readonly supplies: Supplies;
  /** Replications in which no past of a tip fitted. */
  guessed = 0;
  /** Replications in which the tip that is on was not fit for the next image; null where none is on that counts as sound. */
  spoiled: number | null;
  readonly givenUpBefore: number;
  private readonly table: LuckTable;
  /** The past has luck of its own, so that nothing of it comes again. */
  private readonly before: LuckTable;

  constructor(
    /** The strategy from the start of the experiment on. */
    private readonly whole: CampaignModel,
    private readonly courses: readonly Course[],
    private readonly known: KnownCampaign,
    seed: string,
  ) {
    this.collectors = courses.map(() => new Collector());
    const [{ model }] = courses;
    this.supplies = new Supplies(model, known);
    this.table = new LuckTable(seed);
    this.before = new LuckTable(`${seed} (before)`);
    this.spoiled = known.instruments.some(({ tip }) => tip?.judgement === 'sound') ? 0 : null;
    this.givenUpBefore = nowOf(model, known).images.givenUp;
  }

  get count(): number {
    return this.collectors[0].count;
  }

  add(replication: number): void {
    const { courses, known, whole } = this;
    const [{ model }] = courses;
    const luck = this.table.replication(replication);
    let campaign: ReturnType<typeof runCampaign> | null = null;
    const earlier = (image: number): number => {
      campaign ??= runCampaign(whole, this.before.replication(replication));
      return campaign.images[image].kept?.quality ?? whole.images[image].pass.demand.pass.accept;
    };
    const { state, isGuess } = presumed(model, known, luck, earlier);
    if (isGuess) this.guessed += 1;
    if (this.spoiled !== null && isSpoiled(model, luck, state)) this.spoiled += 1;
    courses.forEach((course, place) => {
      const ending = place === 0 ? new Ending() : null;
      const outcome = continueCampaign(course.model, luck, course.begin(state), ending);
      this.collectors[place].add(outcome);
      if (ending !== null) this.supplies.add(outcome, ending.reason);
    });
  }
}

/** Whether, on any instrument whose tip counts as sound, the next image of the tip's kind would start below its accept. */
function isSpoiled(model: CampaignModel, luck: Luck, { instruments }: CampaignState): boolean {
  return instruments.some(({ tips, worklist }, instrument) => {
    const { mounted } = tips;
    if (mounted?.judgement !== 'sound') return false;
    const { turns, again, repeats } = worklist;
    const kind = model.kinds[mounted.kind];
    const tip = new Tip(kind, mounted.number, instrument, luck, mounted.tip);
    const due = [...again, ...turns, ...repeats]
      .map((image) => model.images[image])
      .find(({ pass }) => pass.kind === kind.index);
    return due !== undefined && !isGood(due.pass.demand, startingQuality(due.pass.demand, tip));
  });
}

/** Looks after 200, 400, 800 … replications. */
function runUntilKnown(runs: Continuations, time: TimeMeasure, options: MidwayOptions): string {
  const runTo = (end: number) => {
    for (let replication = runs.count + 1; replication <= end; replication += 1) {
      runs.add(replication);
      options.onProgress?.({ phase: 'replications', done: replication, of: end });
    }
  };
  if (options.replications !== undefined) {
    runTo(options.replications);
    return `${options.replications} replications were asked for`;
  }
  const what = `the chance to finish was known to ±${100 * CHANCE_PRECISION} percentage points and every difference in time to ±${100 * TIME_PRECISION} % of what is left`;
  for (let look = 0; ; look += 1) {
    const end = Math.min(lookAt(look), MOST_REPLICATIONS);
    runTo(end);
    if (isKnown(runs.collectors, time)) return `stopped after ${end} replications, when ${what}`;
    if (end === MOST_REPLICATIONS) return `stopped at the limit of ${end} replications, before ${what}`;
  }
}

function isKnown(collectors: readonly Collector[], time: TimeMeasure): boolean {
  const [first, ...others] = collectors;
  const finished =
    first.finishedInAllocation.length > 0 ? first.finishedInAllocation : first.finishedAt.map((at) => at !== null);
  const { low, high } = chanceOf(finished.filter(Boolean).length, finished.length);
  const own = first.values[measureOf('time', time)];
  const mean = own.reduce((sum, value) => sum + value, 0) / own.length;
  const widths = others.map(({ values }) => pairedInterval(values[measureOf('time', time)], own, LEVEL).halfWidth);
  return (high - low) / 2 <= CHANCE_PRECISION && widths.every((width) => width <= TIME_PRECISION * mean);
}

function grantedFrom(model: CampaignModel, { now, grantedUntil }: KnownCampaign): MidwayResult['allocation'] {
  if (grantedUntil === null) return null;
  const left = Math.max(0, model.bookings.openBetween(now, grantedUntil)) / SECOND;
  return {
    text: `until ${momentName(grantedUntil)}, ${Math.floor(left / 360 + 0.5) / 10} h`,
    end: Math.max(0, grantedUntil - now) / SECOND,
  };
}

function chanceDifferences(
  names: readonly string[],
  collectors: readonly Collector[],
): MidwayResult['chanceDifferences'] {
  const [first, ...others] = collectors;
  const level = bonferroni(LEVEL, comparisons(names.length));
  const shares = ({ finishedInAllocation }: Collector) => finishedInAllocation.map(Number);
  return others.map((other, i) => {
    const { mean, low, high } = pairedInterval(shares(other), shares(first), level);
    return { strategy: names[i + 1], estimate: { value: mean, low, high } };
  });
}
