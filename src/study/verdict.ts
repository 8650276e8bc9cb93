import { eachUnknownOnce, twinOf } from '../scenario/twins.js';
import { isByHand } from './by-hand.js';
import { chanceOf } from './estimate.js';
import { aloneSpanSentence, keptSentence, openSentences, type Said } from './not-knowing/said.js';
import { comparisonSentence, glanceSentences, isCompletionClear } from './pair-sentence.js';
import type { Difference, RegisterEntry, StrategySummary, Summary, Turn, Verdict } from './results.js';
import { INSTRUMENT_TIME, measureName, quoted, timeText, WHY_UNFINISHED } from './words.js';

/** What a verdict is made from. */
export type Found = Pick<
  Summary,
  'strategies' | 'differences' | 'replications' | 'stopping' | 'confidence' | 'allocation' | 'register' | 'notKnowing'
> & {
  readonly currency: string;
  /** What is said first: where a strategy hurries and nothing makes haste worse. */
  readonly freeHaste: readonly string[];
};

/**
 * Plain sentences; the first says whether the verdict stands. Where completion clearly differs no time is ranked, and time
 * alone never where yields or undetected bad shares differ.
 */
export function verdictOf(found: Found): Verdict {
  const turns = eachUnknownOnce(found.register).flatMap((entry) => entry.turns ?? []);
  const isRanked = rankedIn(found);
  const said = saidOf(found);
  const open = said?.notKnowing.differences.filter((difference) => difference.turns) ?? [];
  const sentencesOn = (of: (on: Pick<Turn, 'strategy' | 'measure'>) => boolean) => [
    ...(said === null ? [] : openSentences(open.filter(of), said)),
    ...turnSentences(turns.filter(of), found),
  ];
  const decisive = sentencesOn(isRanked);
  const secondary = sentencesOn((on) => !isRanked(on));
  const isStopped = isByHand(found.stopping.rule);
  const [first, ...others] = found.strategies;
  const sentences = [
    ...(isStopped ? [`Inconclusive: ${found.stopping.text}.`] : []),
    ...found.freeHaste,
    ...(decisive.length > 0 ? [] : standingSentences(found, secondary.length > 0, said)),
    ...decisive.map((sentence, i) => `${i === 0 ? 'Inconclusive: ' : 'Likewise, '}${sentence}`),
    ...(others.length === 0 ? [aloneSentence(first)] : []),
    ...(others.length === 0 && said !== null ? [aloneSpanSentence(said)] : []),
    ...others.map((strategy) => comparisonSentence(strategy, found) + sameText(strategy, found)),
    ...secondary.map((sentence) => `Secondary: ${sentence}`),
    ...found.strategies.flatMap(unfinishedSentence),
  ];
  const resting = turns.filter(isRanked);
  const unknown = open.some(isRanked) ? (said?.notKnowing.inputs ?? []) : [];
  const glance = [
    ...(isStopped ? ['Inconclusive: interrupted before the range limits were tried.'] : []),
    ...found.freeHaste,
    ...(decisive.length === 0 ? [] : [restsOn(resting, unknown, found.register)]),
    ...(others.length === 0 ? [aloneSentence(first)] : glanceSentences(found)),
  ];
  return { glance, sentences, decided: !isStopped && decisive.length === 0, turns };
}

/** `Inconclusive: rests on “resolvable dip” and 12 other unmeasured values.`; what reverses a difference is named before what only weakens one. */
function restsOn(
  turns: readonly Turn[],
  unknown: readonly { readonly description: string }[],
  register: readonly RegisterEntry[],
): string {
  const ordered = turns.toSorted((a, b) => Number(b.isReversed) - Number(a.isReversed));
  const described = ordered.map(
    ({ path }) => register.find((candidate) => candidate.path === path)?.description.replace(/;.*/u, '') ?? path,
  );
  const names = [...new Set([...unknown.map(({ description }) => description), ...described])];
  const others = names.length - 1;
  const more = others === 0 ? '' : ` and ${others} other unmeasured ${others === 1 ? 'value' : 'values'}`;
  return `Inconclusive: rests on ${quoted(names[0])}${more}.`;
}

function saidOf({ notKnowing, currency }: Found): Said | null {
  return notKnowing === null ? null : { notKnowing, currency };
}

/** Whether a strategy is ranked by a measure. What only changes the tips used or the cost does not undo what is said of the rest. */
function rankedIn(found: Found): (on: Pick<Turn, 'strategy' | 'measure'>) => boolean {
  return ({ strategy, measure }) => {
    switch (measure) {
      case 'withinAllocation':
      case 'finishes':
      case 'yield':
      case 'silentBadShare':
        return true;
      case 'time':
      case 'operatorTime':
        return !isCompletionClear(strategy, found);
      case 'tips':
      case 'cost':
        return false;
    }
  };
}

/** Where nothing that ranks reverses or weakens: how far that was tried. */
function standingSentences(found: Found, isSecondaryOpen: boolean, said: Said | null): readonly string[] {
  const { register, differences } = found;
  const tried = eachUnknownOnce(register).filter(({ turns }) => turns !== null).length;
  if (differences.length === 0 || (tried === 0 && said === null)) return [];
  const isRanked = rankedIn(found);
  if (!differences.some((difference) => difference.verdict !== 'not told apart' && isRanked(difference)))
    return [
      'No clear difference in completion, time or data quality; whether there is one elsewhere within the ranges of what is only assumed was not tried.',
    ];
  const of = isSecondaryOpen ? ' in completion, time and data quality' : '';
  return [
    ...(tried === 0
      ? []
      : [
          `Every clear difference${of} keeps its sign and stays clear at both range limits of each of the ${tried} values that are only assumed, tried one at a time.`,
        ]),
    ...(said === null ? [] : [keptSentence(said)]),
  ];
}

function aloneSentence(strategy: StrategySummary): string {
  const time = strategy.measures.instrumentTime.value;
  return `${quoted(strategy)} takes ${timeText(time)} of ${INSTRUMENT_TIME} on average; with one strategy there is nothing to compare.`;
}

/** One sentence for each strategy whose differences reverse or weaken: with what each of them does. */
function turnSentences(turns: readonly Turn[], found: Found): readonly string[] {
  return found.strategies.flatMap((strategy) => {
    const measures = new Set(found.differences.map(({ measure }) => measure));
    const parts = [...measures].flatMap((measure) => {
      const own = turns.filter((turn) => turn.strategy === strategy.name && turn.measure === measure);
      return own.length === 0 ? [] : [turnText(measure, own, found)];
    });
    return parts.length === 0 ? [] : [`the difference of ${quoted(strategy)} ${parts.join('; ')}.`];
  });
}

/** `in yield weakens if “…” (assumed: 1 nm) is 2 nm (and at 1 other range limit)`; what reverses it comes before what only weakens it. */
function turnText(measure: Difference['measure'], turns: readonly Turn[], found: Found): string {
  const [turn] = turns.toSorted((a, b) => Number(b.isReversed) - Number(a.isReversed));
  const rest = turns.length - 1;
  const more = rest === 0 ? '' : ` (and at ${rest} other range ${rest === 1 ? 'limit' : 'limits'})`;
  const how = turn.isReversed ? 'reverses' : 'weakens';
  return `in ${measureName(measure)} ${how} if ${describe(turn.path, found.register)} is ${turn.at}${more}`;
}

function describe(path: string, register: readonly RegisterEntry[]): string {
  const entry = register.find((candidate) => candidate.path === path);
  if (entry === undefined) return path;
  const where = twinOf(register, entry) === null ? '' : ', in both workflows';
  return `“${entry.description}${where}” (assumed: ${entry.value})`;
}

/** An interval of no width tells of what was met alone: events that no campaign met leave it as it is. */
function sameText(strategy: StrategySummary, { differences, replications }: Found): string {
  const time = differences.find((difference) => difference.strategy === strategy.name && difference.measure === 'time');
  if (time?.estimate.low !== 0 || time.estimate.high !== 0) return '';
  const rarer = (100 * chanceOf(0, replications).high).toPrecision(2);
  return ` In none of ${replications} campaigns did the two differ in time; what parts them in fewer than ${rarer} % of campaigns may not have been met.`;
}

function unfinishedSentence({ name, finishes }: StrategySummary): readonly string[] {
  if (finishes.value >= 1) return [];
  const percent = (100 * (1 - finishes.value)).toFixed(1);
  return [
    `${quoted(name)} does not finish in ${percent === '0.0' ? 'less than 0.1' : percent} % of campaigns, because ${WHY_UNFINISHED}; these count in the means with what they had come to by then.`,
  ];
}
