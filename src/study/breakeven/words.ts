import { listed, measureName, quoted, sizeText } from '../words.js';
import { placeText } from '../vary/axis.js';
import { dataIn, dataWords, speaksFor } from './beside.js';
import type { BreakEven, BreakEvenLine, BreakEvenPoint } from './results.js';

/** What the answer is made from. */
export type BreakEvenFound = Pick<BreakEven, 'between' | 'measure' | 'range' | 'across' | 'lines'>;

/** Plain sentences; `decided` is false where nothing is told, or where what else differs must be weighed against it. */
export function answerOf(found: BreakEvenFound, currency: string): BreakEven['answer'] {
  const { lines, across } = found;
  if (lines.length === 0) return { sentences: ['Nothing could be tried: no setting is a scenario.'], decided: false };
  const told = across === null ? lineSentences(lines[0], found, currency) : planeSentences(found);
  const weighed = weighing(found, currency);
  const isTold = lines.every(({ pattern }) => pattern !== 'not told apart');
  return { sentences: [...told, ...weighed.sentences], decided: isTold && !weighed.isOpen };
}

/** `takes less instrument time`, for the better of the two. */
export function betterWords({ measure }: Pick<BreakEvenFound, 'measure'>): string {
  switch (measure) {
    case 'time':
    case 'operatorTime':
      return `takes less ${measureName(measure)}`;
    case 'cost':
      return 'costs less';
    case 'yield':
      return 'has the higher yield';
  }
}

function lineSentences(line: BreakEvenLine, found: BreakEvenFound, currency: string): readonly string[] {
  const { range, between } = found;
  const [a, b] = between.map(quoted);
  const span = `between ${numberText(range.low, range.unit)} and ${numberText(range.high, range.unit)} of ${range.path}`;
  const first = line.points[0];
  const last = line.points[line.points.length - 1];
  switch (line.pattern) {
    case 'crosses':
      return [
        ...line.crossings.map((crossing) => crossingSentence(crossing, found)),
        ...openSentences(line, found),
        ...(range.isWhole ? ['Between whole numbers the difference is taken as linear.'] : []),
      ];
    case 'one is better throughout':
      return [
        `No break-even ${span}: ${quoted(first.better ?? between[0])} ${betterWords(found)} at every setting tried, by ${sizeText(found.measure, first.difference, currency)} at ${first.setting} and by ${sizeText(found.measure, last.difference, currency)} at ${last.setting}.`,
      ];
    case 'equal throughout':
      return [`${a} and ${b} come to exactly the same ${measureName(found.measure)} ${span}, in every replication.`];
    case 'not told apart':
      return [`No break-even is told ${span}.`, ...openSentences(line, found)];
  }
}

function crossingSentence(crossing: BreakEvenPoint, found: BreakEvenFound): string {
  return `Break-even at ${placeText(found.range, crossing)} of ${found.range.path}: below, ${quoted(crossing.below)} ${betterWords(found)}; above, ${quoted(crossing.above)}.`;
}

/** Where, away from a break-even, the two are not told apart. */
function openSentences({ points, crossings, pattern }: BreakEvenLine, found: BreakEvenFound): readonly string[] {
  const [a, b] = found.between.map(quoted);
  const isNear = (number: number) => crossings.some(({ low, high }) => number >= low && number <= high);
  const open = points.filter(({ better, number }) => better === null && !isNear(number));
  const away = crossings.length === 0 ? open : open.filter(({ number }) => isOutside(number, points, crossings));
  if (away.length === 0) return [];
  if (away.length === points.length) return [`${a} and ${b} are told apart at no setting tried.`];
  const winner = pattern === 'not told apart' ? points.find(({ better }) => better !== null)?.better : undefined;
  const rest = winner === undefined || winner === null ? '' : `; elsewhere ${quoted(winner)} ${betterWords(found)}`;
  return [`${a} and ${b} are not told apart at ${listed(away.map(({ setting }) => setting))}${rest}.`];
}

/** Whether a setting lies on neither side next to a break-even, up to the first setting that is told apart. */
function isOutside(number: number, points: BreakEvenLine['points'], crossings: BreakEvenLine['crossings']): boolean {
  return crossings.every(({ value }) => {
    const [from, to] = [Math.min(number, value), Math.max(number, value)];
    return points.some((point) => point.better !== null && point.number > from && point.number < to);
  });
}

function planeSentences(found: BreakEvenFound): readonly string[] {
  const { lines, range, across } = found;
  const at = (line: BreakEvenLine) => line.across ?? '';
  const crossed = lines.filter(({ pattern }) => pattern === 'crosses');
  const said = crossed.map(
    (line) => `${listed(line.crossings.map((crossing) => placeText(range, crossing)))} at ${at(line)}`,
  );
  const [first] = crossed.flatMap(({ crossings }) => crossings);
  const sentences =
    crossed.length === 0
      ? [`There is no break-even in ${range.path} at any setting of ${across?.path ?? ''}.`]
      : [
          `The break-even in ${range.path} lies, by ${across?.path ?? ''}, at ${said.join('; ')}. ${isOneWay(crossed) ? `Below the line ${quoted(first.below)} ${betterWords(found)}, above it ${quoted(first.above)}.` : 'Who is better on which side changes along the line: see the table.'}`,
        ];
  return [
    ...sentences,
    ...found.between.flatMap((name) => {
      const wins = lines.filter(
        ({ pattern, points }) => pattern === 'one is better throughout' && points[0].better === name,
      );
      return wins.length === 0
        ? []
        : [`${quoted(name)} ${betterWords(found)} over the whole range at ${listed(wins.map(at))}.`];
    }),
    ...(['not told apart', 'equal throughout'] as const).flatMap((pattern) => {
      const alike = lines.filter((line) => line.pattern === pattern);
      return alike.length === 0 ? [] : [`At ${listed(alike.map(at))}: ${pattern}.`];
    }),
  ];
}

function isOneWay(lines: readonly BreakEvenLine[]): boolean {
  const ways = lines.flatMap(({ crossings }) => crossings.map(({ below }) => below));
  return new Set(ways).size === 1;
}

/** What differs in the data where time or money is the same, or is the better throughout: it is for the reader to weigh. */
function weighing(found: BreakEvenFound, currency: string): { sentences: readonly string[]; isOpen: boolean } {
  if (found.measure === 'yield' || found.lines.length === 0) return { sentences: [], isOpen: false };
  const places = found.lines.flatMap(({ crossings, besideEnds }) =>
    crossings.length > 0 ? crossings.map(({ beside }) => beside) : besideEnds,
  );
  const differing = places.map(dataIn).filter((data) => data.length > 0);
  const where = found.lines.some(({ crossings }) => crossings.length > 0)
    ? 'At the break-even'
    : 'At the ends of the range';
  if (differing.length === 0)
    return { sentences: [`${where}, yield and undetected bad share are not told apart.`], isOpen: false };
  const some = differing.length < places.length ? ' (at some of them)' : '';
  const data = `${where}${some}, ${dataWords(differing[0], found.between[1], currency)}`;
  const better = winnerOf(found);
  if (better !== null && differing.every((each) => speaksFor(each, better === found.between[1])))
    return { sentences: [`${data}, so the data speak for ${quoted(better)} too.`], isOpen: false };
  return {
    sentences: [
      `${data}: being equal or better in ${measureName(found.measure)} does not settle it, what the data are worth is for the reader to weigh.`,
    ],
    isOpen: true,
  };
}

/** Who is better everywhere; null where that changes or is not told. */
function winnerOf({ lines }: BreakEvenFound): string | null {
  const winners = lines.map(({ pattern, points }) =>
    pattern === 'one is better throughout' ? points[0].better : null,
  );
  return new Set(winners).size === 1 ? winners[0] : null;
}

function numberText(number: number, unit: string): string {
  return unit === '' ? String(number) : `${number} ${unit}`;
}
