import { eachUnknownOnce } from '../../scenario/twins.js';
import { MOST_WORDS, wordsIn } from '../../analysis/answer.js';
import { isInterrupted } from '../../analysis/interrupted.js';
import { COMPLETIONS } from '../../analysis/compared-measures.js';
import { chanceOf } from '../../analysis/estimate.js';
import { matters } from '../../analysis/interest.js';
import { aloneSpanSentence, keptSentence, openSentences, type Said } from './uncertainty/said.js';
import { differenceOf, headlineSentences, partingCompletion, type RestsOn } from './headline-sentence.js';
import { comparisonSentence } from './pair-sentence.js';
import type { Assumption, Reversal, StrategySummary, Summary, Verdict } from '../../analysis/results.js';
import { adviceOf, byTime, SMALL } from '../../analysis/worth/words.js';
import { INSTRUMENT_TIME, WHY_UNFINISHED } from '../../analysis/words.js';
import { percentText, timeText } from '../../wording/numbers.js';
import { capital, counted, listed, quoted } from '../../wording/phrases.js';

/** What a verdict is made from. */
export type Found = Pick<
  Summary,
  | 'strategies'
  | 'differences'
  | 'replications'
  | 'stopping'
  | 'confidence'
  | 'allocation'
  | 'assumptions'
  | 'parameterUncertainty'
> & {
  readonly currency: string;
  /** Where a strategy hurries and nothing makes haste worse. */
  readonly freeHaste: readonly string[];
};

/**
 * The block that is read first, in at most 60 words, and what stands below it. Where completion differs no time is ranked. It is
 * inconclusive where a difference that ranks and matters reverses or weakens within what is not measured.
 */
export function verdictOf(found: Found): Verdict {
  const isRanked = rankedIn(found);
  const reversals = byWeight(
    eachUnknownOnce(found.assumptions).flatMap((entry) => entry.reversals ?? []),
    isRanked,
  );
  const said = saidOf(found);
  const open = said?.parameterUncertainty.differences.filter((difference) => difference.turns) ?? [];
  const isOpen: RestsOn = ({ strategy, measure }) =>
    [...reversals, ...open].some((each) => each.strategy === strategy && each.measure === measure);
  const inconclusive = isInterrupted(found.stopping.rule)
    ? 'Inconclusive: interrupted before the range limits were tried.'
    : restsOn(reversals.filter(isRanked), open.some(isRanked) ? (said?.parameterUncertainty.inputs ?? []) : [], found);
  const held = inconclusive === null ? heldSentence(found) : null;
  const room = MOST_WORDS - wordsIn([inconclusive ?? held ?? '']);
  const [first, ...others] = found.strategies;
  const isAlone = others.length === 0;
  return {
    headline: isAlone
      ? [aloneSentence(first)]
      : [...headlineSentences(found, isOpen, room), ...(held === null ? [] : [held])],
    inconclusive,
    remarks: [
      ...(isInterrupted(found.stopping.rule) ? [`${capital(found.stopping.text)}.`] : []),
      ...found.freeHaste,
      ...(found.allocation?.unit === 'session' && !isInterrupted(found.stopping.rule)
        ? sessionsSentence(found.strategies)
        : []),
      ...unfinishedSentence(found.strategies),
      ...(isAlone || isInterrupted(found.stopping.rule) ? [] : measureFirst(found, inconclusive !== null)),
    ],
    findings: [
      ...(inconclusive === null ? triedSentences(found, said) : []),
      ...(isAlone && said !== null ? [aloneSpanSentence(said)] : []),
      ...others.map((strategy) => comparisonSentence(strategy, found, isOpen) + sameText(strategy, found)),
      ...(said === null ? [] : openSentences(open, said)),
      ...(found.strategies.some(({ finishes }) => finishes.value < 1)
        ? [`A campaign is never complete where ${WHY_UNFINISHED}.`]
        : []),
    ],
    decided: inconclusive === null,
    reversals,
  };
}

/** What undoes a part of the verdict comes first; then the value that undoes most of it; of one value, completion, then what reverses. */
function byWeight(reversals: readonly Reversal[], isRanked: RestsOn): readonly Reversal[] {
  const weights = new Map<string, number>();
  for (const each of reversals.filter(isRanked))
    weights.set(each.path, (weights.get(each.path) ?? 0) + (each.isReversed ? 2 : 1));
  const order = [...new Set(reversals.map(({ path }) => path))];
  const keys = (each: Reversal) => [
    Number(isRanked(each)),
    weights.get(each.path) ?? 0,
    -order.indexOf(each.path),
    Number(COMPLETIONS.some((completion) => completion === each.measure)),
    Number(each.isReversed),
  ];
  return reversals
    .map((reversal) => ({ reversal, key: keys(reversal) }))
    .toSorted((a, b) => b.key.map((of, place) => of - a.key[place]).find((less) => less !== 0) ?? 0)
    .map(({ reversal }) => reversal);
}

/** `Inconclusive: rests on “resolvable dip” and 12 other unmeasured values.`; what changes most of the verdict is named first. */
function restsOn(
  reversals: readonly Reversal[],
  unknown: readonly { readonly description: string }[],
  { assumptions }: Found,
): string | null {
  const described = reversals.map(({ path }) => nameOf(path, assumptions));
  const names = [...new Set([...unknown.map(({ description }) => description), ...described])];
  if (names.length === 0) return null;
  const others = names.length - 1;
  const more = others === 0 ? ', which is unmeasured' : ` and ${counted(others, 'other unmeasured value')}`;
  return `Inconclusive: rests on ${quoted(names[0])}${more}.`;
}

/** What a parameter is called, without what its description adds. */
export function nameOf(path: string, assumptions: readonly Assumption[]): string {
  return assumptions.find((candidate) => candidate.path === path)?.description.replace(/;.*/u, '') ?? path;
}

function saidOf({ parameterUncertainty, currency }: Found): Said | null {
  return parameterUncertainty === null ? null : { parameterUncertainty, currency };
}

/** Whether a strategy is ranked by a measure, by a difference that matters. Tips and cost alone undo nothing that is said of the rest. */
function rankedIn(found: Found): RestsOn {
  return ({ strategy, measure }) => {
    if (!matters(differenceOf(strategy, measure, found))) return false;
    switch (measure) {
      case 'withinAllocation':
      case 'finishes':
      case 'yield':
      case 'undetectedBadShare':
        return true;
      case 'time':
      case 'operatorTime':
        return partingCompletion(strategy, found) === undefined;
      case 'tips':
      case 'cost':
        return false;
    }
  };
}

/** The probability of completion for which time is asked (common practice, no source). */
const LIKELY = 0.9;

/** `For an estimated 90 % probability of completion: 2 sessions with “hop”, 3 with “swap”.`; where the granted time gives less to one of them. */
function sessionsSentence(strategies: readonly StrategySummary[]): readonly string[] {
  if (strategies.every(({ withinAllocation }) => withinAllocation === null || withinAllocation.value >= LIKELY))
    return [];
  const needed = strategies.map(({ name, finishedBySession }) => ({
    name,
    sessions: finishedBySession.findIndex(({ value }) => value >= LIKELY) + 1,
  }));
  const counts = [...new Set(needed.map(({ sessions }) => sessions))].filter((sessions) => sessions > 0);
  if (counts.length === 0) return [];
  const each = counts
    .toSorted((a, b) => a - b)
    .map((sessions, place) => {
      const names = needed.filter((one) => one.sessions === sessions).map(quoted);
      const whose = names.length === strategies.length && names.length > 1 ? 'every strategy' : listed(names);
      return `${place === 0 ? counted(sessions, 'session') : String(sessions)} with ${whose}`;
    });
  const never = needed.filter(({ sessions }) => sessions === 0).map(quoted);
  if (never.length > 0) each.push(`not reached in the sessions simulated with ${listed(never)}`);
  return [`For an estimated ${percentText(LIKELY)} probability of completion: ${each.join(', ')}.`];
}

/** What to measure first, within what is declared uncertain; or who says it of what is only assumed. */
function measureFirst({ parameterUncertainty, assumptions, confidence }: Found, isOpen: boolean): readonly string[] {
  const inputs = parameterUncertainty?.inputs ?? [];
  const drawn = inputs.flatMap(({ parameters }) => parameters.map(({ path }) => path));
  const isMore = assumptions.some(({ path, standing }) => standing === 'assumed' && !drawn.includes(path));
  if (parameterUncertainty !== null && (!isMore || parameterUncertainty.worth.perfect.hours.value >= SMALL)) {
    const more = isMore ? ['The command swap-or-hop worth counts in what is only assumed, too.'] : [];
    const { worth } = parameterUncertainty;
    return [[...adviceOf(worth, byTime(worth, confidence.level)), ...more].join(' ')];
  }
  return isOpen ? ['Run swap-or-hop worth to learn which value to measure first, and what that saves.'] : [];
}

/** What a verdict rests on that no range undoes; null where nothing ranks or nothing was tried. */
function heldSentence(found: Found): string | null {
  const tried = triedValues(found);
  return tried === 0 || !found.differences.some(rankedIn(found))
    ? null
    : `No range limit reverses this (${counted(tried, 'unmeasured value')} tried).`;
}

function triedValues({ assumptions }: Found): number {
  return eachUnknownOnce(assumptions).filter(({ reversals }) => reversals !== null).length;
}

/** Where nothing that ranks reverses or weakens: how far that was tried. */
function triedSentences(found: Found, said: Said | null): readonly string[] {
  const { differences } = found;
  const tried = triedValues(found);
  if (differences.length === 0 || (tried === 0 && said === null)) return [];
  if (!differences.some(rankedIn(found)))
    return [
      'No difference in completion, time or data quality matters; whether one does elsewhere within the ranges of the unmeasured values was not tried.',
    ];
  return [
    ...(tried === 0
      ? []
      : [
          `Every difference in completion, time and data quality that matters stays clear, with its sign, at both range limits of ${counted(tried, 'unmeasured value')}, tried one at a time.`,
        ]),
    ...(said === null ? [] : [keptSentence(said)]),
  ];
}

function aloneSentence(strategy: StrategySummary): string {
  const time = strategy.measures.instrumentTime.value;
  return `${quoted(strategy)} takes ${timeText(time)} of ${INSTRUMENT_TIME} on average; with one strategy there is nothing to compare.`;
}

/** An interval of no width tells of what was met alone: events that no campaign met leave it as it is. */
function sameText(strategy: StrategySummary, found: Found): string {
  const time = differenceOf(strategy.name, 'time', found);
  if (time?.estimate.low !== 0 || time.estimate.high !== 0) return '';
  const { replications } = found;
  const rarer = percentText(chanceOf(0, replications).high);
  return ` In none of ${counted(replications, 'campaign')} did the two differ in time; events in fewer than ${rarer} of campaigns may not have been met.`;
}

function unfinishedSentence(strategies: readonly StrategySummary[]): readonly string[] {
  const shares = strategies.filter(({ finishes }) => finishes.value < 1);
  const texts = [...new Set(shares.map(({ finishes }) => percentText(1 - finishes.value)))];
  if (texts.length === 0) return [];
  const each = texts.map((text, place) => {
    const names = shares.filter(({ finishes }) => percentText(1 - finishes.value) === text).map(quoted);
    return `${text}${place === 0 ? ' of campaigns' : ''} with ${listed(names)}`;
  });
  return [`Never complete: ${each.join(', ')}; the means count them in.`];
}
