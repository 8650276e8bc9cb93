import { CHANGE_NOW } from '../../study/midway/courses.js';
import type { MidwayResult, SupplyOutlook, TipNow } from '../../study/midway/results.js';
import type { Difference, Estimate, StrategySummary } from '../../study/results.js';
import { quoted, sizeText } from '../../study/words.js';
import type { Answer } from '../answer.js';
import { durationText, estimateLine, numberText, SHARE } from '../format.js';
import { listed } from '../text.js';

/** Chances from which on something is worth a word. */
const WORTH_A_WORD = 0.05;

/** `3 sharp tips`, `1 chip`. */
export function countedThings(count: number, what: string): string {
  return `${numberText(count)} ${what}${count === 1 ? '' : 's'}`;
}

/** The chance that a way to go on is finished in time: within what is granted, or ever where nothing is. */
export function chanceOfEnd(course: StrategySummary): Estimate {
  return course.withinAllocation ?? course.finishes;
}

/** The answer in words: the chance to finish, change now or later, what runs short, what is unnoticed. */
export function answerOf(result: MidwayResult): Answer {
  const change = changeText(result);
  return {
    decided: change?.decided ?? true,
    sentences: [
      finishText(result),
      ...(change === null ? [] : [change.text]),
      ...limitTexts(result),
      shortText(result),
      ...unnoticedText(result),
      'This is an estimate from values of which many are only assumed, and no reason to shorten a safety step.',
    ],
  };
}

function finishText({ strategies, allocation, remaining, now }: MidwayResult): string {
  const { images } = now;
  const [first] = strategies;
  const left = images.notYet + images.toRetake;
  if (left === 0 && images.unreviewed === 0) return 'Nothing is left to be taken: every image is kept or given up.';
  const by = (probability: number): string => {
    const found = remaining.find((each) => each.probability === probability);
    const value = found?.value ?? null;
    const clock = found?.clock ?? null;
    return value === null || clock === null ? 'never' : `by ${clock} (in ${durationText(value)})`;
  };
  const half = `half of the campaigns are through ${by(0.5)}, nine in ten ${by(0.9)}`;
  const chance = estimateLine(chanceOfEnd(first), SHARE);
  return allocation === null
    ? `The ${countedThings(left, 'image')} that are left come to an end with a chance of ${chance}: ${half}.`
    : `The ${countedThings(left, 'image')} that are left are finished within the granted time (${allocation.text}) with a chance of ${chance}; ${half}.`;
}

interface Told {
  readonly gains: readonly string[];
  readonly losses: readonly string[];
}

/** What a way to go on gains and loses against carrying on, of all that is told apart. */
function toldOf(result: MidwayResult, course: string): Told {
  const own = result.differences.filter(({ strategy }) => strategy === course);
  const gains: string[] = [];
  const losses: string[] = [];
  const say = (measure: Difference['measure'], more: string, less: string, moreIsGain: boolean): void => {
    const found = own.find((difference) => difference.measure === measure);
    if (found === undefined || found.verdict === 'not told apart') return;
    const size = sizeText(measure, found.estimate, result.scenario.currency);
    const isMore = found.verdict === 'more';
    (isMore === moreIsGain ? gains : losses).push(`${isMore ? more : less} ${size}`);
  };
  say('withinAllocation', 'raises the chance to finish in time by', 'lowers the chance to finish in time by', true);
  say('yield', 'adds to the yield', 'takes from the yield', true);
  say('time', 'takes longer by', 'saves', false);
  return { gains, losses };
}

function tipsText(result: MidwayResult, course: string): string {
  const tips = result.differences.find(({ strategy, measure }) => strategy === course && measure === 'tips');
  if (tips === undefined || tips.verdict === 'not told apart') return '';
  const size = sizeText('tips', tips.estimate, result.scenario.currency);
  return `, with ${size} ${tips.verdict === 'more' ? 'more' : 'fewer'}`;
}

/** Change the tip now or later, in words; null where there is nothing to decide. */
export function changeText(result: MidwayResult): { readonly text: string; readonly decided: boolean } | null {
  if (!result.strategies.some(({ name }) => name === CHANGE_NOW)) return null;
  const { gains, losses } = toldOf(result, CHANGE_NOW);
  const tips = tipsText(result, CHANGE_NOW);
  if (gains.length === 0 && losses.length === 0)
    return {
      decided: true,
      text: `Carry on by the rules: changing the tip now makes no difference in time, yield or chance that can be told${tips}.`,
    };
  if (losses.length === 0) return { decided: true, text: `Change the tip now: it ${listed(gains)}${tips}.` };
  if (gains.length === 0)
    return {
      decided: true,
      text: `Carry on by the rules: changing the tip now ${listed(losses)} and gains nothing that can be told${tips}.`,
    };
  return {
    decided: false,
    text: `Now or later is a trade: changing the tip now ${listed(gains)}, but ${listed(losses)}${tips}. Which counts more is yours to say.`,
  };
}

/** Limits of use of which something can be told. */
function limitTexts(result: MidwayResult): readonly string[] {
  return result.strategies.slice(1).flatMap(({ name }) => {
    if (name === CHANGE_NOW) return [];
    const { gains, losses } = toldOf(result, name);
    if (gains.length === 0) return [];
    const but = losses.length === 0 ? '' : `, but ${listed(losses)}`;
    return [`Against the rules as they are, ${quoted(name)} ${listed(gains)}${but}${tipsText(result, name)}.`];
  });
}

function shortText({ supplies, givenUp }: MidwayResult): string {
  const short = supplies.filter(({ usedUp, ends }) => usedUp.value >= WORTH_A_WORD || ends.value >= WORTH_A_WORD / 5);
  const parts = short.map(supplyText);
  if (givenUp.any.value >= WORTH_A_WORD)
    parts.push(`attempts (some image is given up with a chance of ${estimateLine(givenUp.any, SHARE)})`);
  return parts.length === 0 ? 'Nothing is likely to run short.' : `What may run short: ${listed(parts)}.`;
}

function supplyText({ what, left, usedUp, ends, restock }: SupplyOutlook): string {
  const end =
    restock !== null
      ? `, then ${durationText(restock)} until more come`
      : ends.value > 0
        ? `, and the work ends for want of one in ${estimateLine(ends, SHARE)}`
        : '';
  const all =
    left === 0 ? 'none is left' : `all ${numberText(left)} are used with a chance of ${estimateLine(usedUp, SHARE)}`;
  return `${what}s (${all}${end})`;
}

function unnoticedText({ spoiledUnnoticed }: MidwayResult): readonly string[] {
  if (spoiledUnnoticed === null || spoiledUnnoticed.value < 0.01) return [];
  return [
    `With a chance of ${estimateLine(spoiledUnnoticed, SHARE)} the tip that is on is no longer fit for the next image, though nobody has noticed.`,
  ];
}

/** Use of a tip in one line. */
export function tipText({ kind, images, path, hours, approaches, checkedAgo, radius, judged }: TipNow): string {
  const parts = [
    `${kind}: ${countedThings(Number(images.toPrecision(3)), 'image')}, ${numberText(path)} mm, ${numberText(hours)} h, ${numberText(approaches)} approaches since new`,
    checkedAgo === null ? 'no check passed yet' : `last passed check ${countedThings(checkedAgo, 'scan')} ago`,
    ...(radius === null ? [] : [`apex radius read as ${numberText(radius)} nm`]),
    ...(judged === 'sound' ? [] : [judged]),
  ];
  return parts.join('; ');
}

export const INSTRUMENT_TIME =
  'Instrument time is all time inside bookings from now to the end, whatever the instrument does or waits for in it.';

export const PRESUMED: readonly string[] = [
  'Lives are drawn given that they have lasted so far: a tip that was sound at age a lasts another t with probability S(a + t) / S(a).',
  'A tip counts as sound when new, and when it last passed a check: then nothing had befallen it, and its apex radius was the one read, within the error of the reading, or else that of a new tip blunted over its path. Its images, path, hours and approaches count each as given; earlier scans count as shared evenly between the passes of its kind.',
  'What may have befallen it unnoticed since then is drawn too, and kept with the chance that watching, reviews and checks would have shown just what they did. Cleaning in between is left out.',
  'Images that were kept since then have the true quality that follows from this. Those kept before, or by tips that have gone, have the quality that this strategy’s kept images have in a campaign simulated from its start, which is a little kind to them.',
  'Counts of time, tips and cost begin now. The next step may start at once; an instrument that has stood idle opens with its warm-up. What has been prepared is not prepared again.',
];
