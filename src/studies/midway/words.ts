import { CHANGE_NOW } from './courses.js';
import type { MidwayResult, SupplyOutlook, TipNow } from './results.js';
import type { Estimate } from '../../statistics/estimate.js';
import { matters } from '../../analysis/interest.js';
import type { Difference, StrategySummary } from '../../analysis/results.js';
import { capital, counted, listed, quoted } from '../../wording/phrases.js';
import { sizeOf } from '../../analysis/words.js';
import { type Answer, fullestWithin } from '../../analysis/answer.js';
import { amountOf, effectsText, levelText, noEffectNames } from '../../analysis/effect-words.js';
import { durationText, estimateLine, estimateText, numberText, plainSpaces, SHARE } from '../../wording/numbers.js';

/** Chances from which on something is worth a word. */
const WORTH_A_WORD = 0.05;

/** The chance that a way to go on is finished in time: within what is granted, or ever where nothing is. */
export function chanceOfEnd(course: StrategySummary): Estimate {
  return course.withinAllocation ?? course.finishes;
}

const CAUTION = 'This is an estimate from values of which many are assumed; it is no reason to shorten a safety step.';

/** The answer in words: the probability of completion, and whether to change the tip now; then what runs short and what is unnoticed. */
export function answerOf(result: MidwayResult): Answer {
  const change = changeText(result);
  const [first, more] = finishTexts(result);
  const [texts, briefly] = change === null ? [[], []] : [[change.text], [change.brief]];
  const headline =
    more === ''
      ? [first, ...texts]
      : fullestWithin([
          [`${first}; ${more}.`, ...texts],
          [`${first}.`, ...texts],
          [`${first}.`, ...briefly],
        ]);
  const isLeftOut = texts.some((text) => !headline.includes(text));
  return {
    decided: change?.decided ?? true,
    headline,
    remarks: [CAUTION],
    findings: [
      ...(headline[0].includes(more) ? [] : [`${capital(more)}.`]),
      ...(isLeftOut ? texts : []),
      ...limitTexts(result),
      shortText(result),
      ...unnoticedText(result),
    ],
  };
}

/** In what share of campaigns the rest is complete, and when; the second is empty where nothing is left. */
function finishTexts({ strategies, allocation, remaining, now, confidence }: MidwayResult): readonly [string, string] {
  const { images } = now;
  const [first] = strategies;
  const left = images.notYet + images.toRetake;
  if (left === 0 && images.unreviewed === 0)
    return ['Nothing is left to be scanned: every image is kept or given up.', ''];
  const by = (probability: number): string => {
    const found = remaining.find((each) => each.probability === probability);
    const value = found?.value ?? null;
    const clock = found?.clock ?? null;
    return value === null || clock === null ? 'never' : `by ${clock} (in ${durationText(value)})`;
  };
  const { value, interval } = estimateText(chanceOfEnd(first), SHARE);
  const ends = interval === '' ? '' : ` (${levelText(confidence.level)}${interval})`;
  const within = allocation === null ? '' : ` within the granted time, ${allocation.text},`;
  return [
    plainSpaces(`The ${counted(left, 'image')} that are left are complete${within} in ${value} of campaigns${ends}`),
    `half of the campaigns are complete ${by(0.5)}, 90 % ${by(0.9)}`,
  ];
}

interface Told {
  readonly gains: readonly string[];
  readonly losses: readonly string[];
}

/** What a way to go on gains and loses against carrying on, of all that matters. */
function toldOf({ differences, scenario, confidence }: MidwayResult, course: string): Told {
  const manner = { currency: scenario.currency, level: confidence.level };
  const own = differences.filter(({ strategy }) => strategy === course).filter(matters);
  const told = TOLD.flatMap(({ measure, moreIsGain }) => {
    const found = own.find((difference) => difference.measure === measure);
    return found === undefined ? [] : [{ found, isMore: found.verdict === 'more', moreIsGain }];
  });
  const said = told.map(({ found, isMore, moreIsGain }, place) => {
    const isLevelNamed = place === 0;
    const text =
      found.measure === 'withinAllocation'
        ? `${isMore ? 'raises' : 'lowers'} the probability of completion in the granted time by ${amountOf(found, { ...manner, isLevelNamed })}`
        : effectsText([found], { ...manner, isLevelNamed });
    return { text, isGain: isMore === moreIsGain };
  });
  const [gains, losses] = [true, false].map((isGain) =>
    said.filter((each) => each.isGain === isGain).map(({ text }) => text),
  );
  return { gains, losses };
}

function differencesTold({ differences }: MidwayResult, course: string): readonly Difference[] {
  return differences.filter(
    ({ strategy, measure }) => strategy === course && TOLD.some((told) => told.measure === measure),
  );
}

/** Differences by which ways to go on are told good or bad. */
const TOLD: readonly { readonly measure: Difference['measure']; readonly moreIsGain: boolean }[] = [
  { measure: 'withinAllocation', moreIsGain: true },
  { measure: 'yield', moreIsGain: true },
  { measure: 'time', moreIsGain: false },
];

function tipsText(result: MidwayResult, course: string): string {
  const tips = result.differences.find(({ strategy, measure }) => strategy === course && measure === 'tips');
  if (tips === undefined || !matters(tips)) return '';
  const { value, interval } = sizeOf('tips', tips.estimate, result.scenario.currency);
  return `, with ${value} ${tips.verdict === 'more' ? 'more' : 'fewer'}${interval === '' ? '' : ` (${interval})`}`;
}

/** What to do about the tip, in one sentence, and more briefly. */
interface Advice {
  readonly text: string;
  readonly brief: string;
  readonly decided: boolean;
}

/** Change the tip now or later, in words; null where there is nothing to decide. */
export function changeText(result: MidwayResult): Advice | null {
  if (!result.strategies.some(({ name }) => name === CHANGE_NOW)) return null;
  const { gains, losses } = toldOf(result, CHANGE_NOW);
  const tips = tipsText(result, CHANGE_NOW);
  if (gains.length === 0 && losses.length === 0) {
    const none = `Carry on by the rules: changing the tip now shows ${noEffectNames(differencesTold(result, CHANGE_NOW))}`;
    return { decided: true, text: `${none}${tips}.`, brief: `${none}.` };
  }
  if (losses.length === 0)
    return {
      decided: true,
      text: `Change the tip now: it ${listed(gains)}${tips}.`,
      brief: `Change the tip now: it ${gains[0]}.`,
    };
  if (gains.length === 0)
    return {
      decided: true,
      text: `Carry on by the rules: changing the tip now ${listed(losses)}, without a gain that matters${tips}.`,
      brief: `Carry on by the rules: changing the tip now ${losses[0]}.`,
    };
  return {
    decided: false,
    text: `Change the tip now or later, as counts more to you: changing it now ${listed(gains)}, but ${listed(losses)}${tips}.`,
    brief: `Change the tip now or later, as counts more to you: changing it now ${gains[0]}, but ${losses[0]}.`,
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
    parts.push(`attempts (in ${estimateLine(givenUp.any, SHARE)} of campaigns an image is given up)`);
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
    left === 0 ? 'none is left' : `all ${numberText(left)} are used in ${estimateLine(usedUp, SHARE)} of campaigns`;
  return `${what}s (${all}${end})`;
}

function unnoticedText({ spoiledUnnoticed }: MidwayResult): readonly string[] {
  if (spoiledUnnoticed === null || spoiledUnnoticed.value < 0.01) return [];
  return [
    `With a probability of ${estimateLine(spoiledUnnoticed, SHARE)} the tip that is on is no longer fit for the next image, though nobody has noticed.`,
  ];
}

/** Use of a tip in one line. */
export function tipText({ kind, images, path, hours, approaches, checkedAgo, radius, judged }: TipNow): string {
  const parts = [
    `${kind}: ${counted(Number(images.toPrecision(3)), 'image')}, ${numberText(path)} mm, ${durationText(3600 * hours)}, ${numberText(approaches)} approaches since new`,
    checkedAgo === null ? 'no check passed yet' : `last passed check ${counted(checkedAgo, 'scan')} ago`,
    ...(radius === null ? [] : [`apex radius read as ${numberText(radius)} nm`]),
    ...(judged === 'sound' ? [] : [judged]),
  ];
  return parts.join('; ');
}

export const INSTRUMENT_TIME =
  'Instrument time is all time inside bookings from now to the end, whatever the instrument does or waits for in it.';

export const PRESUMED: readonly string[] = [
  'Lives are drawn given that they have lasted so far: a tip that was sound at age a lasts another t with probability S(a + t) / S(a).',
  'A tip counts as sound when new, and when it last passed a check: then nothing had befallen it, and its apex radius was the one read, within the error of the reading, or else that of a new tip worn over its path. Its images, path, hours and approaches count each as given; earlier scans count as shared evenly between the passes of its kind.',
  'What may have befallen it unnoticed since then is drawn too, and kept with the chance that watching, reviews and checks would have shown just what they did. Cleaning in between is left out.',
  'Images that were kept since then have the true quality that follows from this. Those kept before, or by tips that have gone, have the quality that this strategy’s kept images have in a campaign simulated from its start, which is a little kind to them.',
  'Counts of time, tips and cost begin now. The next step may start at once; an instrument that has stood idle opens with its warm-up. What has been prepared is not prepared again.',
];
