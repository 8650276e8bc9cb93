import type { LoadedScenario } from '../../scenario/load.js';
import type { Reading } from '../../scenario/quantity.js';
import type { Setting } from '../../scenario/ranges.js';
import { allocationOf, recordOf, type StudyOptions } from '../../analysis/about.js';
import { answerUnlessStopped } from '../../analysis/answer.js';
import { unlessStopped, warnedOf } from '../../analysis/interrupted.js';
import { LEVEL } from '../../analysis/differences.js';
import type { Interest } from '../../analysis/interest.js';
import { meanInterval } from '../../statistics/interval.js';
import { howLongToWait, isOfWaiting } from '../../analysis/how-long-to-wait.js';
import { runnable } from '../../execution/replicate.js';
import { heldAtCentre } from '../../analysis/vary/held.js';
import { notToHurry } from '../../analysis/vary/hurry.js';
import { applySettings, type Varied } from '../../analysis/vary/varied.js';
import { freeHasteAlong } from '../../analysis/what-rushing-costs.js';
import { runInProcess } from '../../execution/in-process.js';
import { completed, type Work } from '../../execution/work.js';
import { compareAfresh, soFar } from './afresh.js';
import { choose } from './choose.js';
import { type Goal, type GoalName, goalNamed } from './goals.js';
import { bestOf, type FirstLook, firstLook, LOOK } from './look.js';
import { Counter } from './counter.js';
import { procedureText } from './procedure-text.js';
import { type Constraint, TUNE_FORMAT, type TuneResult } from './results.js';
import { snippetOf } from './snippet.js';
import { Space } from './space.js';
import { type TrialGround, Trials } from './trials.js';
import { tuneAnswer } from './answer.js';
import { worthOfSettings } from './worth.js';

/** Campaigns at most, unless told otherwise. */
export const MOST_CAMPAIGNS = 30_000;

/** What is asked of tuning. */
export interface TuneRequest {
  readonly strategy: string;
  readonly varied: readonly Varied[];
  readonly goal: GoalName;
  /** Null where none was given. */
  readonly yieldAtLeast: number | null;
  /** Granted hours in place of the scenario's; null where none were given. */
  readonly hours: number | null;
  /** Chance to be right, in (½, 1). */
  readonly confidence: number;
  /** Share of the best mean of the first look that counts as equal, above 0; null for the scenario's smallest difference of interest. */
  readonly zone: number | null;
  /** Most campaigns of the selection. */
  readonly maxCampaigns: number;
  /** Of all that is uncertain, for the worth of knowing more; null for none. */
  readonly draws: number | null;
}

/** Finds the best setting of one or several values of a strategy for a goal, with common random numbers. */
export function tune(given: LoadedScenario, request: TuneRequest, options: StudyOptions): Reading<TuneResult> {
  return runInProcess(tuneWork(given, request, options));
}

/**
 * The same as work that others carry out. Stopped by hand, it says what is known of each setting by then.
 * @throws Stopped where it was interrupted before all settings were looked at
 */
export function* tuneWork(
  given: LoadedScenario,
  request: TuneRequest,
  options: StudyOptions,
): Work<Reading<TuneResult>> {
  const granted = request.hours === null ? given : withHours(given, request.strategy, request.hours);
  if (granted === null)
    return {
      ok: false,
      message: `${request.hours} h cannot be granted in this scenario; give another number of hours with --hours`,
    };
  const space = new Space(granted, request.strategy, request.varied);
  const goal = goalNamed(request.goal);
  const own = space.present;
  if (goal.isWithinGranted && own.model.allocationEnd === null)
    return { ok: false, message: 'the scenario grants no time (`bookings.allocation`); say how much with --hours' };

  const record = recordOf(TUNE_FORMAT, granted, options);
  const counter = new Counter(options.onProgress);
  const ground: TrialGround = { seed: record.seed, counter };
  counter.begin('first look');
  const presentLook = new Trials(own, 1, ground);
  yield* completed(counter.over(presentLook.tasksTo(LOOK)));
  presentLook.lookAt(LOOK);
  const interest = granted.base.smallestDifference;
  const constraint = constraintOf(goal, request, interest, presentLook);
  const look = yield* firstLook(space, goal, constraint?.yieldAtLeast ?? 0, ground);
  if (look.chosen.length === 0)
    return { ok: false, message: `no setting of the ranges is possible: ${space.refused.reason ?? 'there is none'}` };

  const best = bestOf(look.chosen, goal, constraint?.yieldAtLeast ?? 0);
  if (goal.per !== null && !(best > 0))
    return {
      ok: false,
      message: 'no setting of the ranges kept a good image in the first look, so there is no time per image',
    };
  // Of nothing, no share counts: then the share itself does.
  const share = request.zone ?? zoneOf(goal, interest, best);
  const zone = share * (Math.abs(best) || 1);
  counter.begin('selection');
  const trials = look.chosen.map(({ candidate }) => new Trials(candidate.strategy, LOOK + 1, ground));
  const mayRun = (campaigns: number) => counter.inPhase + campaigns <= request.maxCampaigns;
  const choosing = { goal, constraint, confidence: request.confidence, zone, mayRun, counter };
  const chosen = yield* unlessStopped(choose(trials, choosing));
  const selection = Math.max(...trials.map(({ looked }) => looked));

  const size = goal.per === null ? zone : share / best;
  const left = { space, look, trials, goal, constraint, zone: size };
  const first = LOOK + selection + 1;
  const afresh =
    chosen === null ? null : yield* unlessStopped(compareAfresh({ ...left, choice: chosen }, first, ground));
  // What was selected, but not compared, is not said.
  const choice = afresh === null ? null : chosen;
  const compared = afresh ?? soFar({ ...left, choice }, presentLook);
  const { settings, present, comparisons, stopped } = compared;
  const winner = choice?.selection?.selected ?? null;
  const isDecided = choice?.isDecided ?? false;
  const worth =
    winner === null || stopped !== null || request.draws === null
      ? null
      : yield* unlessStopped(
          worthOfSettings(granted, {
            candidates: look.chosen.flatMap(({ candidate }, place) =>
              settings[place].meets === null || settings[place].meets === 'meets' ? [candidate] : [],
            ),
            ...{ goal, varied: request.varied, draws: request.draws, ground },
          }),
        );
  const limit = `the selection ended ${isDecided ? 'by itself' : `at its limit of ${request.maxCampaigns} campaigns`}`;
  const stopping = stopped ?? limit;
  const replications = { look: LOOK, selection, comparison: compared.replications };
  const strategy = { name: space.strategy, workflow: own.model.workflow };
  const found = {
    ...record,
    strategy,
    goal: { name: request.goal, wanted: goal.wanted, title: goal.title, sense: goal.sense, unit: goal.unit },
    constraint,
    allocation: allocationOf(own),
    varied: request.varied,
    space: { size: space.size, lookedAt: look.looked.length, refused: space.refused, compared: settings.length },
    looked: look.looked.length === look.chosen.length ? [] : lookedSettings(look, goal),
    procedure: {
      confidence: request.confidence,
      zone: { share, size },
      replications,
      campaigns: counter.count,
      isDecided,
      text: procedureText({
        goal,
        constraint,
        space,
        replications,
        look,
        choice,
        maxCampaigns: request.maxCampaigns,
        isStopped: stopped !== null,
      }),
    },
    confidence: { level: LEVEL, comparisons },
    settings,
    winner,
    present,
    worth,
    // What decides nothing is not to be pasted.
    snippet:
      winner === null || stopped !== null ? null : snippetOf(strategy, request.varied, settings[winner].settings),
    stopping,
    warnings: [
      ...(options.warnings ?? []),
      ...heldAtCentre(granted),
      ...notToHurry(request.varied),
      ...warnedOf(stopping),
    ],
  };
  const freeHaste = freeHasteAlong(
    request.varied.map(({ path }) => path),
    granted.strategies.filter(({ name }) => name === space.strategy),
  );
  const waiting = winner === null ? '' : waitText(granted, request, settings[winner].settings);
  return {
    ok: true,
    value: { ...found, answer: answerUnlessStopped(tuneAnswer(found, waiting, freeHaste), stopping) },
  };
}

/** How long the settings have the strategy wait, where that is what is varied. */
function waitText(loaded: LoadedScenario, { strategy, varied }: TuneRequest, settings: readonly Setting[]): string {
  if (!varied.some(({ path }) => isOfWaiting(path))) return '';
  const pairs = varied.map(({ path }, place) => [path, settings[place]] as const);
  const applied = applySettings(loaded, pairs, strategy);
  if (!applied.ok) throw new Error(applied.message);
  const [{ model }] = runnable(applied.scenario.strategies.filter(({ name }) => name === strategy));
  return howLongToWait(model);
}

function withHours(loaded: LoadedScenario, strategy: string, hours: number): LoadedScenario | null {
  const applied = applySettings(loaded, [['bookings.allocation', `${hours} h`]], strategy);
  return applied.ok ? applied.scenario : null;
}

/** A zone of nothing would be looked for without end. */
const LEAST_ZONE = 0.0001;

/** The smallest difference of interest as a share of the best mean. */
function zoneOf({ unit }: Goal, interest: Interest, best: number): number {
  const share = unit === 'yield' ? interest.yield / (Math.abs(best) || 1) : interest[unit];
  return Math.max(LEAST_ZONE, share);
}

/** Where a goal needs a least yield and none is given, it is a little less than what the present setting surely has. */
function constraintOf(
  goal: Goal,
  { yieldAtLeast, zone }: TuneRequest,
  interest: Interest,
  present: Trials,
): Constraint | null {
  if (goal.leastYield === 'never' || (goal.leastYield === 'where given' && yieldAtLeast === null)) return null;
  const { mean, low } = meanInterval(present.of('yield'), LEVEL);
  const below = zone === null ? interest.yield : mean * zone;
  const least = yieldAtLeast ?? Math.floor(100 * Math.min(mean - below, low)) / 100;
  if (least <= 0) return null;
  const origin = yieldAtLeast === null ? 'present setting' : 'given';
  return {
    yieldAtLeast: least,
    tolerance: zone === null ? Math.max(LEAST_ZONE, interest.yield) : zone * least,
    origin,
  };
}

function lookedSettings({ looked, chosen }: FirstLook, goal: Goal): TuneResult['looked'] {
  return looked.map((each) => ({
    settings: each.candidate.settings,
    goal: goal.per === null ? each.observed : each.observed === 0 ? 0 : 1 / each.observed,
    yield: each.yield,
    isCompared: chosen.includes(each),
  }));
}
