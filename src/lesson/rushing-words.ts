import { durationText, numberText, SHARE } from '../report/format.js';
import type { AtPace } from './tasks/rushing.js';

/** A pace as a sentence names it. */
export function paceText(pace: number): string {
  return pace === 1 ? 'the usual pace' : `${String(pace)} × the usual pace`;
}

const SAFETY = 'never look for time in the steps that keep you or the instrument safe.';

/**
 * What faster scanning comes to in these numbers, in two sentences. A difference counts where the two intervals lie apart.
 * @param points ascending by pace, at least one
 */
export function rushingLesson(points: readonly AtPace[]): readonly [string, string] {
  const best = points.reduce((least, each) => (each.time.value < least.time.value ? each : least));
  const fastest = points[points.length - 1];
  const usual = points.find(({ pace }) => pace === 1) ?? points[0];
  if (best.time.high < fastest.time.low) {
    const more = durationText(fastest.time.value - best.time.value);
    const where = `at ${paceText(fastest.pace)} the same images take ${more} more`;
    return [
      best.pace > usual.pace
        ? `In this scenario faster scanning saves time up to about ${paceText(best.pace)}; beyond that the losses win: ${where}.`
        : `In this scenario faster scanning saves no time, as the losses win: ${where} than at ${paceText(best.pace)}.`,
      `Find that pace before you need it, and ${SAFETY}`,
    ];
  }
  const gain =
    fastest.time.high < usual.time.low
      ? `saves time up to the fastest pace tried, ${paceText(fastest.pace)}`
      : 'makes no clear difference to the time';
  if (fastest.yield.high < usual.yield.low) {
    const [from, to] = [usual, fastest].map((each) => numberText(each.yield.value, SHARE));
    return [
      `In this scenario faster scanning ${gain}, but the yield falls from ${from} to ${to} there: judge both together.`,
      `Whatever the pace, ${SAFETY}`,
    ];
  }
  return [
    `In this scenario faster scanning ${gain}, and the yield does not clearly fall: no pace that was tried is too fast for it.`,
    `Whether that holds at your microscope depends on what the scenario leaves out; whatever the pace, ${SAFETY}`,
  ];
}
