import { isByHand } from './by-hand.js';
import { chanceOf } from './estimate.js';
import { aloneSpanSentence, keptSentence, openSentences, type Said } from './not-knowing/said.js';
import { quoted, sizeText, timeName, timeText, WHY_UNFINISHED } from './words.js';
import type { Difference, RegisterEntry, StrategySummary, Summary, Turn, Verdict } from './results.js';

/** What a verdict is made from. */
export type Found = Pick<
  Summary,
  'strategies' | 'differences' | 'replications' | 'stopping' | 'timeMeasure' | 'register' | 'notKnowing'
> & {
  readonly currency: string;
};

/** Plain sentences; the first says whether the verdict stands. Time alone never ranks where yields or silent-bad shares differ. */
export function verdictOf(found: Found): Verdict {
  const turns = found.register.flatMap((entry) => entry.turns ?? []);
  // What only changes how many tips go or what all costs does not undo what is said of time and yield; it is said after them.
  const decisive = turns.filter(isDecisive);
  const others = turns.filter((turn) => !isDecisive(turn));
  const said = saidOf(found);
  const open = said?.notKnowing.differences.filter((difference) => difference.turns) ?? [];
  const sentencesOn = (weight: boolean, on: readonly Turn[]) => [
    ...(said === null
      ? []
      : openSentences(
          open.filter((difference) => isDecisive(difference) === weight),
          said,
        )),
    ...turnSentences(on, found),
  ];
  const decisiveSentences = sentencesOn(true, decisive);
  const isStopped = isByHand(found.stopping.rule);
  const sentences = [
    ...(isStopped ? [`Not decided: ${found.stopping.text}.`] : []),
    ...(decisiveSentences.length > 0 ? [] : standingSentences(found, said)),
    ...decisiveSentences.map((sentence, i) =>
      i === 0 ? `Not decided by what is known: ${sentence}` : `Likewise, ${sentence}`,
    ),
    ...(found.strategies.length === 1 ? [aloneSentence(found.strategies[0], found)] : []),
    ...(found.strategies.length === 1 && said !== null ? [aloneSpanSentence(said)] : []),
    ...found.strategies.slice(1).flatMap((strategy) => comparisonSentences(strategy, found)),
    ...sentencesOn(false, others).map((sentence) => `Less weighty, but open too: ${sentence}`),
    ...found.strategies.flatMap(unfinishedSentence),
  ];
  return { sentences, decided: !isStopped && decisiveSentences.length === 0, turns };
}

function saidOf({ notKnowing, timeMeasure, currency }: Found): Said | null {
  return notKnowing === null ? null : { notKnowing, timeMeasure, currency };
}

/** Where nothing turns: how far that was tried. Only a difference that is told apart has a sign to keep. */
function standingSentences({ register, differences }: Found, said: Said | null): readonly string[] {
  const tried = register.filter(({ turns }) => turns !== null).length;
  if (differences.length === 0 || (tried === 0 && said === null)) return [];
  const isAnyTold = differences.some(
    ({ measure, verdict }) => (measure === 'time' || measure === 'yield') && verdict !== 'not told apart',
  );
  if (!isAnyTold)
    return [
      'No difference in time or yield is told apart; whether one would be elsewhere within the ranges of what is only assumed was not tried.',
    ];
  return [
    ...(tried === 0
      ? []
      : [
          `Every difference in time and yield that is told apart keeps its sign at both ends of the range of each of the ${tried} values that are only assumed, tried one at a time. The silent-bad share, and what is not told apart, were not tried there.`,
        ]),
    ...(said === null ? [] : [keptSentence(said)]),
  ];
}

function isDecisive({ measure }: Pick<Turn, 'measure'>): boolean {
  return measure === 'time' || measure === 'yield';
}

function aloneSentence(strategy: StrategySummary, found: Found): string {
  const time = strategy.measures[found.timeMeasure].value;
  return `${quoted(strategy)} takes ${timeText(time)} of ${timeName(found.timeMeasure)} on average; with one strategy there is nothing to compare.`;
}

const MOST_TURNS_SAID = 2;

/** One sentence for each difference that turns: what it turns with, time before yield before the rest. */
function turnSentences(turns: readonly Turn[], found: Found): readonly string[] {
  return found.differences.flatMap(({ strategy, measure }) => {
    const own = turns.filter((turn) => turn.strategy === strategy && turn.measure === measure);
    if (own.length === 0) return [];
    const what = measure === 'time' ? timeName(found.timeMeasure) : measure;
    // What reverses a difference weighs more than what only hides it; the two are never said as one.
    const reversing = own.filter(({ isReversed }) => isReversed);
    const how = reversing.length > 0 ? 'turns' : 'is no longer told apart';
    const said = (reversing.length > 0 ? reversing : own)
      .slice(0, MOST_TURNS_SAID)
      .map((turn) => `${describe(turn.path, found.register)} is ${turn.at}`);
    const rest = own.length - said.length;
    const more = rest > 0 ? ` (and at ${rest} other ${rest === 1 ? 'end' : 'ends'} of ranges: see the register)` : '';
    return [`the difference in ${what} of ${quoted(strategy)} ${how} if ${said.join(', or if ')}${more}.`];
  });
}

function describe(path: string, register: readonly RegisterEntry[]): string {
  const entry = register.find((candidate) => candidate.path === path);
  return entry === undefined ? path : `“${entry.description}” (${path}, assumed: ${entry.value})`;
}

function comparisonSentences(strategy: StrategySummary, found: Found): readonly string[] {
  const of = (measure: Difference['measure']) =>
    found.differences.find((difference) => difference.strategy === strategy.name && difference.measure === measure);
  const [time, good, silent, tips, cost] = [of('time'), of('yield'), of('silentBadShare'), of('tips'), of('cost')];
  if (time === undefined || good === undefined || silent === undefined) return [];
  const first = found.strategies[0];
  const { currency } = found;
  const named = [
    { difference: time, what: timeName(found.timeMeasure) },
    { difference: good, what: 'yield' },
    { difference: silent, what: 'silent-bad share' },
    ...[tips, cost].flatMap((side) => (side === undefined ? [] : [{ difference: side, what: side.measure }])),
  ];
  const rank = ranking(strategy, first, time, good, silent);
  return [
    `${quoted(strategy)} against ${quoted(first)}: ${rank} ${differencesText(named, currency)}${sameText(time, found)}${reason(strategy, first, time, found)}`,
  ];
}

/** An interval of no width tells of what was met alone: events that no campaign met leave it as it is. */
function sameText({ estimate }: Difference, { replications }: Found): string {
  if (estimate.low !== 0 || estimate.high !== 0) return '';
  const rarer = (100 * chanceOf(0, replications).high).toPrecision(2);
  return ` In none of ${replications} campaigns did the two differ in time; what parts them in fewer than ${rarer} % of campaigns may not have been met.`;
}

interface Named {
  readonly difference: Difference;
  readonly what: string;
}

/** `It comes to 1.2 h (0.8 to 1.6) less instrument time, …; not told apart: yield.` */
function differencesText(named: readonly Named[], currency: string): string {
  const told = named.filter(({ difference }) => difference.verdict !== 'not told apart');
  const others = named.filter((one) => !told.includes(one)).map(({ what }) => what);
  const sentences = [
    ...(told.length === 0 ? [] : [`It comes to ${told.map((one) => phrase(one, currency)).join(', ')}.`]),
    ...(others.length === 0 ? [] : [`Not told apart: ${others.join(', ')}.`]),
  ];
  return sentences.join(' ');
}

/** `1.2 h (0.8 to 1.6) less instrument time` */
function phrase({ difference, what }: Named, currency: string): string {
  const size = sizeText(difference.measure, difference.estimate, currency);
  if (what === 'tips') return `${size} ${difference.verdict === 'more' ? 'more' : 'fewer'}`;
  return `${size} ${difference.verdict} ${what}`;
}

function ranking(
  strategy: StrategySummary,
  first: StrategySummary,
  time: Difference,
  good: Difference,
  silent: Difference,
): string {
  const better = [time.verdict === 'less', good.verdict === 'more', silent.verdict === 'less'];
  const worse = [time.verdict === 'more', good.verdict === 'less', silent.verdict === 'more'];
  if (!better.includes(true) && !worse.includes(true)) return 'in time and data quality the two are not told apart.';
  if (!worse.includes(true)) return `${quoted(strategy)} ${betterIn(better)}`;
  if (!better.includes(true)) return `${quoted(first)} ${betterIn(worse)}`;
  return 'neither is better on every count; what the time is worth against the data is for the reader to weigh.';
}

/** In what one is the better, and in what the two are not told apart; `told`: time, yield, silent-bad share. */
function betterIn([time, ...data]: readonly boolean[]): string {
  if (!data.includes(true)) return 'is the better in time; in data quality the two are not told apart.';
  return time
    ? 'is the better in time and data quality.'
    : 'is the better in data quality; in time the two are not told apart.';
}

/** Activities that a change of tip or region is made of. */
const CHANGING = ['exchanging', 'hopping', 'locating and relocating', 'warming up and settling'] as const;

/** Whether preparation is paid back, as the split of the instrument's time shows it; nothing where the workflow is the same. */
function reason(strategy: StrategySummary, first: StrategySummary, time: Difference, found: Found): string {
  const saved = CHANGING.reduce((sum, activity) => sum + first.split[activity] - strategy.split[activity], 0);
  const preparing = strategy.split['preparing and setting up'] - first.split['preparing and setting up'];
  if (strategy.workflow === first.workflow || preparing <= 0) return '';
  // The first preparation on the bench is in the split but not in instrument time, so the one cannot explain the other.
  const isOutside = strategy.preparesOnBench && found.timeMeasure === 'instrumentTime';
  if (isOutside)
    return ` Preparing and setting up takes ${timeText(preparing)} more, which counts the first preparation on the bench, left out of instrument time; changing tips and regions takes ${timeText(Math.abs(saved))} ${saved < 0 ? 'more' : 'less'}.`;
  const sums = `preparing and setting up takes ${timeText(preparing)} more, changing tips and regions ${timeText(Math.abs(saved))} ${saved < 0 ? 'more' : 'less'}`;
  if (time.verdict === 'more' && preparing > saved)
    return ` Hopping does not pay here, because preparation costs more than the swaps it saves: ${sums}.`;
  if (time.verdict === 'less' && preparing < saved) return ` Preparation is paid back: ${sums}.`;
  return ` Where it goes: ${sums}.`;
}

function unfinishedSentence({ name, finishes }: StrategySummary): readonly string[] {
  if (finishes.value >= 1) return [];
  const percent = (100 * (1 - finishes.value)).toFixed(1);
  return [
    `${quoted(name)} does not finish in ${percent === '0.0' ? 'less than 0.1' : percent} % of campaigns, because ${WHY_UNFINISHED}; these count in the means with what they had come to by then.`,
  ];
}
