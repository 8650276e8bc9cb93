/**
 * How a difference is said, wherever it is: what, which way, how much, interval with its level. Size and certainty are judged
 * apart (GRADE guidelines 26); where neither way is clear both are named (Cochrane Handbook for Systematic Reviews of
 * Interventions, section 12.7.4); what rests on something unmeasured only may be so.
 */

import { percentText } from '../wording/numbers.js';
import { listed, quoted } from '../wording/phrases.js';
import { judged, type Judged, matters } from './interest.js';
import type { Difference } from './results.js';
import { measureName, sizeOf } from './words.js';

/** A difference as a sentence is made of it. */
export type Said = Judged & Pick<Difference, 'measure'>;

/** How a sentence says its differences. */
export interface Manner {
  readonly currency: string;
  /** Confidence of the intervals, named with the first one; null where no interval is given. */
  readonly level: number | null;
  /** False where the level was named before. */
  readonly isLevelNamed?: boolean;
  /** Whether a difference rests on something unmeasured. */
  readonly restsOnUnmeasured?: (difference: Said) => boolean;
}

type Verb = 'take' | 'have' | 'use' | 'cost';

function verbOf(measure: Difference['measure']): Verb {
  switch (measure) {
    case 'time':
    case 'operatorTime':
      return 'take';
    case 'tips':
      return 'use';
    case 'cost':
      return 'cost';
    default:
      return 'have';
  }
}

const THIRD_PERSON: Readonly<Record<Verb, string>> = { take: 'takes', have: 'has', use: 'uses', cost: 'costs' };

/** `takes 29 min less instrument time (95 % interval 26 to 31) and has 1.5 percentage points more yield (1.0 to 2.0)`. */
export function effectsText(differences: readonly Said[], manner: Manner): string {
  const groups: { readonly head: string; readonly parts: string[] }[] = [];
  differences.forEach((difference, place) => {
    const verb = verbOf(difference.measure);
    const head = manner.restsOnUnmeasured?.(difference) === true ? `may ${verb}` : THIRD_PERSON[verb];
    const part = amountText(difference, manner, place === 0);
    const last = groups.at(-1);
    if (last?.head === head) last.parts.push(part);
    else groups.push({ head, parts: [part] });
  });
  return listed(groups.map(({ head, parts }) => `${head} ${listed(parts)}`));
}

/**
 * One strategy against another, whatever the differences come to: `“hop” takes 29 min less instrument time (95 % interval 26 to 31)
 * than “swap”.` or `“hop” shows little to no difference in yield (more than 1 percentage point is ruled out), against “swap”.`
 */
export function comparedSentence(
  [first, second]: readonly [string, string],
  differences: readonly Said[],
  manner: Manner,
): string {
  const told = differences.filter(matters);
  return told.length > 0
    ? `${quoted(second)} ${effectsText(told, manner)} than ${quoted(first)}.`
    : `${quoted(second)} shows ${noEffectText(differences, manner)}, against ${quoted(first)}.`;
}

/** `29 min less instrument time (95 % interval 26 to 31)` */
function amountText({ measure, estimate }: Said, manner: Manner, isFirst: boolean): string {
  const { value, interval } = sizeOf(measure, estimate, manner.currency);
  const way = estimate.value < 0 ? 'less' : 'more';
  return `${value} ${wayText(measure, way)}${intervalIn(interval, { ...manner, isLevelNamed: isFirst && manner.isLevelNamed !== false })}`;
}

/** `13 percentage points (95 % interval 9 to 17)` */
export function amountOf({ measure, estimate }: Said, manner: Manner): string {
  const { value, interval } = sizeOf(measure, estimate, manner.currency);
  return `${value}${intervalIn(interval, manner)}`;
}

function intervalIn(interval: string, { level, isLevelNamed = true }: Manner): string {
  if (level === null || interval === '') return '';
  return ` (${isLevelNamed ? levelText(level) : ''}${interval})`;
}

/** `95 % interval `, before the first of several. */
export function levelText(level: number): string {
  return `${percentText(level)} interval `;
}

function wayText(measure: Difference['measure'], way: 'less' | 'more'): string {
  switch (measure) {
    case 'tips':
      return way === 'less' ? 'fewer' : way;
    case 'cost':
      return way;
    case 'undetectedBadShare':
      return `${way} undetected bad images`;
    default:
      return `${way} ${measureName(measure)}`;
  }
}

/** What is said of differences that do not matter, or of which nothing is clear; nothing of no differences. */
export function noEffectText(differences: readonly Said[], manner: Manner): string {
  const of = (wanted: ReturnType<typeof judged>) => differences.filter((each) => judged(each) === wanted);
  const unclear = of('unclear').map(
    ({ measure, estimate }) => `${measureName(measure)} (${directionsText(measure, estimate, manner)})`,
  );
  const little = of('little').map((each) => `${measureName(each.measure)} (${boundText(each, manner)})`);
  return [
    ...(unclear.length === 0 ? [] : [`no clear difference in ${listed(unclear)}`]),
    ...(little.length === 0 ? [] : [`little to no difference in ${listed(little)}`]),
  ].join('; ');
}

/** The same by name alone. */
export function noEffectNames(differences: readonly Said[]): string {
  const of = (wanted: ReturnType<typeof judged>) =>
    differences.filter((each) => judged(each) === wanted).map(({ measure }) => measureName(measure));
  const [unclear, little] = [of('unclear'), of('little')];
  return [
    ...(unclear.length === 0 ? [] : [`no clear difference in ${listed(unclear)}`]),
    ...(little.length === 0 ? [] : [`little to no difference in ${listed(little)}`]),
  ].join('; ');
}

/** `from 2 h less to 3 h more` */
function directionsText(measure: Difference['measure'], { low, high }: Said['estimate'], { currency }: Manner): string {
  const end = (value: number) => sizeOf(measure, { value, low, high }, currency).value;
  return `from ${end(Math.min(low, 0))} less to ${end(Math.max(high, 0))} more`;
}

/** `0.05 tips fewer (0.02 to 0.07)` of what is clear, else `more than 5 min is ruled out`. */
function boundText(difference: Said, manner: Manner): string {
  const { measure, estimate, smallest } = difference;
  if (estimate.low > 0 || estimate.high < 0) {
    const { value, interval } = sizeOf(measure, estimate, manner.currency);
    const way = estimate.value > 0 ? 'more' : measure === 'tips' ? 'fewer' : 'less';
    return `${value} ${way}${interval === '' ? '' : `, ${interval}`}`;
  }
  if (estimate.low === estimate.high) return 'the same in every campaign';
  const { value } = sizeOf(measure, { value: smallest, low: smallest, high: smallest }, manner.currency);
  return `more than ${value} is ruled out`;
}

/** What becomes of a difference, in the cell of a table: where it matters, in the words given. */
export function judgedWord(difference: Judged, where: string): string {
  switch (judged(difference)) {
    case 'matters':
      return where;
    case 'little':
      return 'little to no difference';
    case 'unclear':
      return 'no clear difference';
  }
}
