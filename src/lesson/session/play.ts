import type { Activity } from '../../campaign/activities.js';
import { runCampaign } from '../../campaign/campaign.js';
import type { Take } from '../../campaign/ledger.js';
import type { CampaignModel, ImageModel } from '../../campaign/model.js';
import type { Outcome } from '../../campaign/outcome.js';
import type { RecordedStep } from '../../campaign/recorder.js';
import type { Luck } from '../../chance/luck.js';
import { SECOND } from '../../kernel/clock.js';
import type { Timeline } from '../../analysis/results.js';
import { STEP_WORDS } from '../../analysis/timeline.js';
import { type Choice, type Decision, tipChoices } from './choices.js';
import { Diary, type ScanLook, type Told } from './diary.js';
import { stepsBefore, timelineBefore } from './ending.js';
import { Player, type Point } from './player.js';

/** A take as a person at the instrument sees it, and as it really was. Times in seconds from the start. */
export interface ShownScan extends ScanLook {
  /** Numbers from 0. */
  readonly image: number;
  readonly region: number;
  /** Which region that is of which sample, in words; the sample is named where there are several. */
  readonly place: string;
  readonly take: number;
  readonly pass: string;
  /** Scan time of a whole scan, in seconds. */
  readonly duration: number;
  /** Since when it counts as lost; null: it is kept, as far as the session has come. */
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

/** A session as it was played up to its end, or to a question. All times are seconds from the start. */
export interface Played {
  /** Where it stops: at the question, or at the end. */
  readonly end: number;
  /** In the order in which they end. */
  readonly steps: readonly ShownStep[];
  readonly told: readonly Told[];
  /** With the true state of every tip, for afterwards. */
  readonly timeline: Timeline;
}

/** A session as far as it is decided. All times are seconds from the start. */
export interface Session extends Played {
  /** Time of the week at the start, seconds from Monday 00:00. */
  readonly startsAt: number;
  /** End of the booked time; null where it has none. */
  readonly bookedUntil: number | null;
  readonly images: number;
  readonly points: readonly Point[];
  /** The doubt that waits for a decision; null where the session is over. */
  readonly question: Point | null;
  /** What may be done about a tip. */
  readonly offered: readonly Choice[];
  /** What the campaign came to, with what is left to the rules after the end; null before that. */
  readonly outcome: Outcome | null;
}

/**
 * Plays a session from its start: the same draws and decisions give the same session, up to the first doubt on which
 * nobody has decided. Whoever decides every time as the rules would has the campaign that `runCampaign` gives. It ends
 * with the granted time, where the model has one: what comes later is left to the rules, and not shown.
 */
export function playSession(name: string, model: CampaignModel, luck: Luck, decisions: readonly Decision[]): Session {
  const choices = new Map(decisions.map(({ point, choice }) => [point, choice]));
  const last = model.allocationEnd ?? Infinity;
  const player = new Player(({ point, time, ruled }) => choices.get(point) ?? (time < last ? null : ruled));
  const diary = diaryFor(name, model);
  const outcome = outcomeUnlessAsked(player, () => runCampaign(model, luck, diary, player));
  const since = sinceStart(model);
  const timed = (point: Point): Point => ({ ...point, time: since(point.time) });
  const question = player.question === null ? null : timed(player.question);
  const played = playedBy(diary, model, question);
  return {
    ...played,
    startsAt: model.start / SECOND,
    bookedUntil: model.allocationEnd === null ? null : since(model.allocationEnd),
    images: model.images.length,
    points: player.points.filter(({ time }) => time < last).map(timed),
    question,
    offered: tipChoices(model),
    outcome,
  };
}

/** The same session as the rules would have it. */
export function ruledSession(name: string, model: CampaignModel, luck: Luck): Played & { readonly outcome: Outcome } {
  const diary = diaryFor(name, model);
  const outcome = runCampaign(model, luck, diary);
  return { ...playedBy(diary, model, null), outcome };
}

function sinceStart({ start }: CampaignModel): (time: number) => number {
  return (time) => (time - start) / SECOND;
}

function playedBy(diary: Diary, model: CampaignModel, question: Point | null): Played {
  const since = sinceStart(model);
  const shown = stepsBefore(model.allocationEnd ?? Infinity, diary.steps);
  const last = shown.reduce((latest, step) => Math.max(latest, step.end), model.start);
  const end = question?.time ?? since(last);
  const told = diary.told.map((each) => ({ ...each, time: since(each.time) })).filter(({ time }) => time <= end);
  return {
    end,
    steps: shownSteps(shown, diary, model.samples, since, model.allocationEnd === null ? Infinity : end),
    told,
    timeline: timelineBefore(end, diary.chronicle.timeline()),
  };
}

/** Half-angle (degrees) by which a tip that never blunts is pictured: the default of those that do. */
const USUAL_HALF_ANGLE = 20;

function diaryFor(name: string, model: CampaignModel): Diary {
  const kinds = Object.values(model.settings.tips);
  return new Diary(
    name,
    model,
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

function shownSteps(
  steps: readonly RecordedStep[],
  { looks }: Diary,
  samples: CampaignModel['samples'],
  since: (time: number) => number,
  /** What is lost later is kept, as far as this session knows. */
  until: number,
): readonly ShownStep[] {
  const lost = lostMoments(steps);
  return steps.map(({ instrument, start, end, activity, step, take }) => {
    const look = take === null ? undefined : looks.get(take);
    const lostAt = take === null ? Infinity : since(lost.get(take) ?? Infinity);
    return {
      ...{ instrument, start: since(start), end: since(end), activity, words: STEP_WORDS[step] },
      scan:
        take === null || look === undefined
          ? null
          : {
              ...look,
              ...numbersOf(take),
              place: placeOf(take.image, samples),
              lostAt: lostAt <= until && lostAt < Infinity ? lostAt : null,
            },
    };
  });
}

function placeOf({ sample, region }: ImageModel, samples: CampaignModel['samples']): string {
  const { name, firstRegion } = samples[sample];
  const within = `region ${region - firstRegion + 1}`;
  return samples.length === 1 ? within : `sample ${name}, ${within}`;
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
