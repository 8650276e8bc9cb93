import type { Activity } from '../../campaign/activities.js';
import { runCampaign } from '../../campaign/campaign.js';
import type { Take } from '../../campaign/ledger.js';
import type { CampaignModel } from '../../campaign/model.js';
import type { Outcome } from '../../campaign/outcome.js';
import type { RecordedStep } from '../../campaign/recorder.js';
import type { Luck } from '../../chance/luck.js';
import { SECOND } from '../../kernel/clock.js';
import type { Timeline } from '../../study/results.js';
import { STEP_WORDS } from '../../study/timeline.js';
import { type Choice, type Decision, offered } from './choices.js';
import { Diary, type ScanLook, type Told } from './diary.js';
import { Player, type Point } from './player.js';

/** A take as a person at the instrument sees it, and as it really was. Times in seconds from the start. */
export interface ShownScan extends ScanLook {
  /** Numbers from 0. */
  readonly image: number;
  readonly region: number;
  readonly take: number;
  readonly pass: string;
  /** Scan time of a whole scan, in seconds. */
  readonly duration: number;
  /** Since when it counts as lost; null: it is kept, as far as the afternoon has come. */
  readonly lostAt: number | null;
  /** True quality, and whether the image is good. */
  readonly quality: number;
  readonly accept: number;
}

/** A stretch of an instrument's time, in seconds from the start. */
export interface ShownStep {
  readonly instrument: number;
  readonly start: number;
  readonly end: number;
  readonly activity: Activity;
  readonly words: string;
  readonly scan: ShownScan | null;
}

/** An afternoon as far as it is decided. All times are seconds from the start. */
export interface Afternoon {
  /** Where it stops: at the question, or at the end. */
  readonly end: number;
  /** Time of the week at the start, seconds from Monday 00:00. */
  readonly startsAt: number;
  readonly images: number;
  /** In the order in which they end. */
  readonly steps: readonly ShownStep[];
  readonly told: readonly Told[];
  readonly points: readonly Point[];
  /** The doubt that waits for a decision; null where the afternoon is over. */
  readonly question: Point | null;
  readonly offered: readonly Choice[];
  readonly outcome: Outcome | null;
  /** With the true state of every tip, for afterwards. */
  readonly timeline: Timeline;
}

/**
 * Plays an afternoon from its start: the same luck and decisions give the same afternoon, up to the first doubt on which
 * nobody has decided. Whoever decides every time as the rules would has the campaign that `runCampaign` gives.
 */
export function playAfternoon(
  name: string,
  model: CampaignModel,
  luck: Luck,
  decisions: readonly Decision[],
): Afternoon {
  const choices = new Map(decisions.map(({ point, choice }) => [point, choice]));
  const player = new Player(({ point }) => choices.get(point) ?? null);
  const diary = diaryFor(name, model);
  const outcome = outcomeUnlessAsked(player, () => runCampaign(model, luck, diary, player));
  const since = (time: number) => (time - model.start) / SECOND;
  const timed = <T extends { readonly time: number }>(each: T): T => ({ ...each, time: since(each.time) });
  const question = player.question === null ? null : timed(player.question);
  return {
    end: question?.time ?? outcome?.totalTime ?? 0,
    startsAt: model.start / SECOND,
    images: model.images.length,
    steps: shownSteps(diary, since),
    told: diary.told.map(timed),
    points: player.points.map(timed),
    question,
    offered: offered(model),
    outcome,
    timeline: diary.chronicle.timeline(),
  };
}

/** The same afternoon as the rules would have it. */
export function ruledAfternoon(
  name: string,
  model: CampaignModel,
  luck: Luck,
): { outcome: Outcome; timeline: Timeline } {
  const diary = diaryFor(name, model);
  return { outcome: runCampaign(model, luck, diary), timeline: diary.chronicle.timeline() };
}

/** Half-angle (degrees) by which a tip that never blunts is pictured: the default of those that do. */
const USUAL_HALF_ANGLE = 20;

function diaryFor(name: string, { start, settings }: CampaignModel): Diary {
  const kinds = Object.values(settings.tips);
  return new Diary(
    name,
    start,
    kinds.map(({ blunting }) => blunting?.halfAngle ?? USUAL_HALF_ANGLE),
  );
}

/** Null where the campaign stopped because the player is asked. */
function outcomeUnlessAsked(player: Player, run: () => Outcome): Outcome | null {
  try {
    return run();
  } catch (error) {
    if (player.question === null) throw error;
    return null;
  }
}

function shownSteps({ steps, looks }: Diary, since: (time: number) => number): readonly ShownStep[] {
  const lost = lostMoments(steps);
  return steps.map(({ instrument, start, end, activity, step, take }) => {
    const look = take === null ? undefined : looks.get(take);
    const lostAt = take === null ? null : (lost.get(take) ?? null);
    return {
      ...{ instrument, start: since(start), end: since(end), activity, words: STEP_WORDS[step] },
      scan:
        take === null || look === undefined
          ? null
          : { ...look, ...numbersOf(take), lostAt: lostAt === null ? null : since(lostAt) },
    };
  });
}

function numbersOf({ image, running, quality }: Take) {
  const { pass } = image.pass.demand;
  return {
    ...{ image: image.number, region: image.region, take: running, quality },
    ...{ pass: pass.name, accept: pass.accept, duration: image.pass.duration / SECOND },
  };
}

/** When each take that is not kept was lost: flagged, void with its specimen, or replaced by a later one. */
function lostMoments(steps: readonly RecordedStep[]): ReadonlyMap<Take, number> {
  const lost = new Map<Take, number>();
  const kept = new Map<number, Take>();
  for (const { take } of steps) {
    if (take === null) continue;
    if (take.flaggedAt !== null || take.voidAt !== null) {
      lost.set(take, Math.min(take.flaggedAt ?? Infinity, take.voidAt ?? Infinity));
      continue;
    }
    const before = kept.get(take.image.number);
    if (before !== undefined) lost.set(before, take.end);
    kept.set(take.image.number, take);
  }
  return lost;
}
