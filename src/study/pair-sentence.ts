import type { Completion } from './compared-measures.js';
import type { Difference, StrategySummary, Summary } from './results.js';
import { COMPARED, COMPLETIONS } from './compared-measures.js';
import { listed, measureName, quoted, sizeOf, timeText } from './words.js';

/** What is said of two strategies is made from this. */
export type Compared = Pick<Summary, 'strategies' | 'differences' | 'confidence' | 'allocation'> & {
  readonly currency: string;
};

/** Measures that a strategy is ranked by, the better being less of it but for the yield. */
const RANKED = ['time', 'operatorTime', 'yield', 'silentBadShare'] as const;
const TIMES: readonly Difference['measure'][] = ['time', 'operatorTime'];

function differenceOf(strategy: string, measure: Difference['measure'], found: Compared): Difference | undefined {
  return found.differences.find((difference) => difference.strategy === strategy && difference.measure === measure);
}

function isClear(difference: Difference | undefined): difference is Difference {
  return difference !== undefined && difference.verdict !== 'not told apart';
}

/** The completion in which a strategy clearly differs from the first one, that within the allocation before the other. */
function clearCompletion(strategy: string, found: Compared): Completion | undefined {
  return COMPLETIONS.find((measure) => isClear(differenceOf(strategy, measure, found)));
}

/** Whether completion is what parts this strategy from the first one, so that no time is ranked. */
export function isCompletionClear(strategy: string, found: Compared): boolean {
  return clearCompletion(strategy, found) !== undefined;
}

/** What a strategy comes to against the first one, and where preparation is counted. */
export function comparisonSentence(strategy: StrategySummary, found: Compared): string {
  const first = found.strategies[0];
  const completion = clearCompletion(strategy.name, found);
  const measures = COMPARED.filter((measure) => completion === undefined || !TIMES.includes(measure));
  const differences = measures.flatMap((measure) => differenceOf(strategy.name, measure, found) ?? []);
  const head = completion === undefined ? ranking(strategy, found) : completionText(strategy, completion, found);
  const clear = differences.filter(isClear).map((difference, place) => phrase(difference, place === 0, found));
  const rest = differences.filter((difference) => !isClear(difference));
  const unclear = rest.map(({ measure }) => measureName(measure));
  const sizes = [
    ...(clear.length === 0 ? [] : [clear.join(', ')]),
    ...(unclear.length === 0 ? [] : [`no clear difference in ${listed(unclear)}`]),
  ].join('; ');
  return `${head}${sizes === '' ? '' : `: ${sizes}`}.${preparationText(strategy, first, found)}`;
}

/** What a reader wants to know first: who completes how often where that differs clearly; else who is better at what, by how much. */
export function glanceSentences(found: Compared): readonly string[] {
  const [first, ...others] = found.strategies;
  const parted = COMPLETIONS.flatMap((completion) => {
    const own = others.filter(({ name }) => clearCompletion(name, found) === completion);
    if (own.length === 0) return [];
    const shares = [first, ...own].map((each, place) => {
      const { share, interval } = shareText(each[completion] ?? each.finishes);
      return `${quoted(each)} ${share}${place === 0 ? ' of campaigns' : ''} (${interval})`;
    });
    return [`Complete${withinText(completion, found)}: ${shares.join(', ')}.`];
  });
  const alike = others.filter(({ name }) => clearCompletion(name, found) === undefined);
  if (alike.length === 0) return parted;
  const said = alike.map((strategy) => `${quoted(strategy)} ${glanceText(strategy, found)}`);
  return [...parted, `Against ${quoted(first)}: ${said.join('; ')}.`];
}

/** Clear differences in time and data quality: what the time costs in data is never left out, though only the first has its interval. */
function glanceText({ name }: StrategySummary, found: Compared): string {
  const clear = RANKED.flatMap((measure) => differenceOf(name, measure, found) ?? []).filter(isClear);
  if (clear.length === 0) return 'no clear difference in time or data quality';
  const [most, ...rest] = clear;
  return listed([phrase(most, false, found), ...rest.map((difference) => changeText(difference, found))]);
}

function withinText(completion: Completion, { allocation }: Compared): string {
  return completion === 'finishes' ? '' : ` within ${allocation?.text ?? 'the allocation'}`;
}

/** `“hop” is better than “swap” in instrument time, worse in operator time and yield` */
function ranking(strategy: StrategySummary, found: Compared): string {
  const first = found.strategies[0];
  const inWhich = (isBetter: boolean) =>
    RANKED.filter((measure) => {
      const difference = differenceOf(strategy.name, measure, found);
      return isClear(difference) && ((difference.verdict === 'more') === (measure === 'yield')) === isBetter;
    }).map((measure) => measureName(measure));
  const [better, worse] = [inWhich(true), inWhich(false)];
  if (better.length > 0)
    return `${quoted(strategy)} is better than ${quoted(first)} in ${listed(better)}${worse.length === 0 ? '' : `, worse in ${listed(worse)}`}`;
  if (worse.length > 0) return `${quoted(strategy)} is worse than ${quoted(first)} in ${listed(worse)}`;
  return `Between ${quoted(strategy)} and ${quoted(first)} there is no clear difference in time or data quality`;
}

/** `“hop” completes within 2 sessions less often than “swap”, in 62 % of campaigns (95 % interval 59 to 65) against … (…), so no time is ranked` */
function completionText(strategy: StrategySummary, completion: Completion, found: Compared): string {
  const first = found.strategies[0];
  const within = completion === 'finishes' ? ' the plan' : withinText(completion, found);
  const isMore = differenceOf(strategy.name, completion, found)?.verdict === 'more';
  const [own, other] = [strategy, first].map((each) => shareText(each[completion] ?? each.finishes));
  const level = `${100 * found.confidence.level} % interval `;
  return `${quoted(strategy)} completes${within} ${isMore ? 'more' : 'less'} often than ${quoted(first)}, in ${own.share} of campaigns (${level}${own.interval}) against ${other.share} (${other.interval}), so no time is ranked`;
}

function shareText({ value, low, high }: StrategySummary['finishes']): {
  readonly share: string;
  readonly interval: string;
} {
  // Divided as everywhere, so that a half rounds alike.
  const say = (share: number) => (share / 0.01).toFixed(1).replace(/\.0$/u, '');
  return { share: `${say(value)} %`, interval: `${say(low)} to ${say(high)}` };
}

/** `34 min less instrument time (25 to 42)`; the first one names what its interval is. */
function phrase(difference: Difference, isFirst: boolean, found: Compared): string {
  const { interval } = sizeOf(difference.measure, difference.estimate, found.currency);
  const level = isFirst ? `joint ${100 * found.confidence.level} % interval ` : '';
  return `${changeText(difference, found)} (${level}${interval})`;
}

/** `34 min less instrument time` */
function changeText({ measure, verdict, estimate }: Difference, { currency }: Compared): string {
  const what = measure === 'tips' ? (verdict === 'more' ? 'more' : 'fewer') : `${verdict} ${measureName(measure)}`;
  return `${sizeOf(measure, estimate, currency).size} ${what}`;
}

/** Activities that a change of tip or region is made of. */
const CHANGING = ['exchanging', 'hopping', 'locating and relocating', 'warming up and settling'] as const;

/** Where preparation is counted and whether it is paid back, as the split of the instrument's time shows it; nothing where both prepare alike. */
function preparationText(strategy: StrategySummary, first: StrategySummary, found: Compared): string {
  if (strategy.workflow === first.workflow && strategy.preparesOnBench === first.preparesOnBench) return '';
  const where = [strategy, first]
    .filter(({ workflow }) => workflow === 'hop')
    .map(
      (each) =>
        `preparation of ${quoted(each)} is counted ${each.preparesOnBench ? 'at the bench, in operator time and cost, not in instrument time' : 'at the instrument, in instrument time too'}`,
    );
  const counted = listed(where);
  return ` ${counted.slice(0, 1).toUpperCase()}${counted.slice(1)}; ${splitText(strategy, first, found)}.`;
}

/** Seconds below which a difference in preparing and setting up is not worth a word. */
const TELLING = 30;

function splitText(strategy: StrategySummary, first: StrategySummary, found: Compared): string {
  const saved = CHANGING.reduce((sum, activity) => sum + first.split[activity] - strategy.split[activity], 0);
  const preparing = strategy.split['preparing and setting up'] - first.split['preparing and setting up'];
  const side = (seconds: number) => `${timeText(Math.abs(seconds))} ${seconds < 0 ? 'less' : 'more'}`;
  const changing = `changing tips and regions ${Math.abs(preparing) < TELLING ? 'takes ' : ''}${side(-saved)}`;
  if (Math.abs(preparing) < TELLING) return changing;
  const sums = `preparing and setting up takes ${side(preparing)} at the instrument, ${changing}`;
  const time = differenceOf(strategy.name, 'time', found);
  if (strategy.preparesOnBench || preparing <= 0 || !isClear(time) || isCompletionClear(strategy.name, found))
    return sums;
  if (time.verdict === 'more' && preparing > saved)
    return `${sums}: preparation costs more time than the changes it saves`;
  return time.verdict === 'less' && preparing < saved ? `${sums}: preparation is paid back in time` : sums;
}
