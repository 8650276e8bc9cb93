import { durationText, numberText, SHARE } from '../wording/numbers.js';
import type { Estimate } from '../statistics/estimate.js';
import { bestOf } from './best.js';
import type { AtPace } from './tasks/rushing.js';

/** A pace as a sentence names it. */
export function paceText(pace: number): string {
  return pace === 1 ? 'the usual pace' : `${String(pace)} × the usual pace`;
}

const SAFETY = 'never look for time in the steps that keep you or the instrument safe.';

/** What is quickened, as a sentence begins with it. */
export type Hurry = 'faster scanning' | 'quicker hands';

/** A value tried, as a sentence names it, and the time for each good image there. */
export interface Tried {
  readonly at: string;
  readonly perGood: Estimate;
  /** Whether that is clearly more than the least. */
  readonly isWorse: boolean;
}

/**
 * Whether the least time per good image lies inside the range, in one sentence.
 * @param tried in order along the range, at least one
 */
export function optimumText(tried: readonly Tried[]): string {
  const best = bestOf(tried);
  const ends = [tried[0], tried[tried.length - 1]];
  const alike = ends.filter(({ isWorse }) => !isWorse);
  if (alike.length === 0) return `The optimum lies inside the range, at about ${best.at}.`;
  if (alike.length > 1)
    return 'The range shows no optimum: nothing that was tried differs clearly from both of its ends.';
  return `The range shows no optimum inside: nothing that was tried is clearly better than its end, ${alike[0].at}.`;
}

/**
 * What a hurry comes to in these numbers, in a few sentences. Differences from the usual pace count where the two intervals lie apart.
 * @param points ascending by pace, at least one
 */
export function rushingLesson(points: readonly AtPace[], hurry: Hurry): readonly string[] {
  const best = bestOf(points);
  const fastest = points[points.length - 1];
  const usual = points.find(({ at }) => at === 1) ?? points[0];
  const optimum = optimumText(points.map((point) => ({ ...point, at: paceText(point.at) })));
  if (fastest.isWorse) {
    const more = durationText(fastest.perGood.value - best.perGood.value);
    const where = `at ${paceText(fastest.at)} a good image takes ${more} more`;
    return [
      best.at > usual.at
        ? `In this scenario ${hurry} ${saves(hurry)} time up to about ${paceText(best.at)}; beyond that the losses win: ${where}.`
        : `In this scenario ${hurry} ${saves(hurry)} no time, as the losses win: ${where} than at ${paceText(best.at)}.`,
      optimum,
      `Find that pace before you need it, and ${SAFETY}`,
    ];
  }
  const gain =
    fastest.perGood.high < usual.perGood.low
      ? `${saves(hurry)} time up to the fastest pace tried, ${paceText(fastest.at)}`
      : `${hurry === 'faster scanning' ? 'makes' : 'make'} no clear difference to the time`;
  if (fastest.yield.high < usual.yield.low) {
    const [from, to] = [usual, fastest].map((each) => numberText(each.yield.value, SHARE));
    return [
      `In this scenario ${hurry} ${gain}, but the yield falls from ${from} to ${to} there: judge both together.`,
      optimum,
      `Whatever the pace, ${SAFETY}`,
    ];
  }
  return [
    `In this scenario ${hurry} ${gain}, and the yield does not clearly fall: no pace that was tried is too fast for it.`,
    optimum,
    `Whether that holds at your microscope depends on what the scenario leaves out; whatever the pace, ${SAFETY}`,
  ];
}

function saves(hurry: Hurry): string {
  return hurry === 'faster scanning' ? 'saves' : 'save';
}
