import { type Answer, fullestWithin, MOST_WORDS, wordsIn } from '../../analysis/answer.js';
import { betterWords, dataIn, dataWords, speaksFor } from '../../analysis/beside.js';
import { levelText } from '../../analysis/effect-words.js';
import { judged } from '../../analysis/interest.js';
import { placeText } from '../../analysis/vary/axis.js';
import { measureName, sizeOf } from '../../analysis/words.js';
import { nameIn } from '../../scenario/describe.js';
import { counted, listed, quoted } from '../../wording/phrases.js';
import type { BreakEven, BreakEvenLine, BreakEvenPoint, CurvePoint, RangeSaid } from './results.js';

/** What the answer is made from. */
export type BreakEvenFound = Pick<BreakEven, 'between' | 'measure' | 'level' | 'range' | 'across' | 'lines'>;

/** What is said first, and what stands below it. */
interface InWords {
  readonly headline: readonly string[];
  readonly findings: readonly string[];
}

/** `decided` is false where nothing is clear, or where what else differs must be weighed against it. */
export function answerOf(found: BreakEvenFound, currency: string): Answer {
  const { lines, across } = found;
  if (lines.length === 0)
    return {
      headline: ['Nothing could be tried: no setting is a scenario.'],
      remarks: [],
      findings: [],
      decided: false,
    };
  const { headline, findings } = across === null ? inLine(lines[0], found, currency) : inPlane(found);
  const weighed = weighing(found, currency);
  const isClear = lines.every(({ pattern }) => pattern !== 'no clear difference');
  // What speaks against the better one belongs to what is read first.
  const isFirst = weighed.isOpen && wordsIn([...headline, ...weighed.sentences]) <= MOST_WORDS;
  return {
    headline: isFirst ? [...headline, ...weighed.sentences] : headline,
    remarks: [],
    findings: isFirst ? findings : [...findings, ...weighed.sentences],
    decided: isClear && !weighed.isOpen,
  };
}

function inLine(line: BreakEvenLine, found: BreakEvenFound, currency: string): InWords {
  const { range, between } = found;
  const [a, b] = between.map(quoted);
  const span = `between ${withUnit(range.low, range.unit)} and ${withUnit(range.high, range.unit)} of ${nameOf(range)}`;
  switch (line.pattern) {
    case 'crosses': {
      const drafts = [true, false].map((hasLevel) =>
        line.crossings.map((crossing, place) => crossingSentence(crossing, found, hasLevel && place === 0)),
      );
      const [first] = line.crossings;
      return {
        headline: fullestWithin([
          ...drafts,
          [`${counted(line.crossings.length, 'break-even')} in ${nameOf(range)}, the first at ${place(range, first)}.`],
        ]),
        findings: [
          ...openSentences(line, found),
          ...littleSentence(line),
          ...(range.isWhole ? ['Between whole numbers the difference is taken as linear.'] : []),
        ],
      };
    }
    case 'one is better throughout':
      return throughout(line, found, span, currency);
    case 'equal throughout':
      return {
        headline: [
          `${a} and ${b} come to exactly the same ${measureName(found.measure)} ${span}, in every replication.`,
        ],
        findings: [],
      };
    case 'no clear difference': {
      const [first, ...rest] = [...openSentences(line, found), ...littleSentence(line)];
      return { headline: [`No break-even is clear ${span}.`, first], findings: rest };
    }
  }
}

function throughout({ points }: BreakEvenLine, found: BreakEvenFound, span: string, currency: string): InWords {
  const { measure, between, level } = found;
  const [first, last] = [points[0], points[points.length - 1]];
  const better = first.better ?? between[0];
  const winner = quoted(better);
  const than = `${betterWords(measure)} than ${quoted(between.find((name) => name !== better) ?? better)}`;
  const by = ({ difference, setting }: CurvePoint, levelled: string | null) => {
    const { value, interval } = sizeOf(measure, difference, currency);
    const ends = interval === '' || levelled === null ? '' : ` (${levelled}${interval})`;
    return `${value}${ends} at ${setting}`;
  };
  const isLittle = points.every((point) => judgedAt(point) === 'little');
  const drafts = ['', null].map((levelled) => {
    const sizes = `${by(first, levelText(level))} and ${by(last, levelled)}`;
    return isLittle
      ? `Little to no difference in ${measureName(measure)} ${span}: ${winner} ${than} by ${sizes}.`
      : `No break-even ${span}: ${winner} ${than} at every setting tried, by ${sizes}.`;
  });
  return {
    headline: fullestWithin(drafts.map((draft) => [draft])),
    findings: isLittle ? [] : littleSentence({ points }),
  };
}

function judgedAt({ difference, smallest }: CurvePoint): ReturnType<typeof judged> {
  return judged({ estimate: difference, smallest });
}

/** Settings at which the difference is smaller than what matters. */
function littleSentence({ points }: Pick<BreakEvenLine, 'points'>): readonly string[] {
  const little = points.filter((point) => judgedAt(point) === 'little');
  return little.length === 0 ? [] : [`Little to no difference at ${listed(little.map(({ setting }) => setting))}.`];
}

function nameOf({ description }: Pick<RangeSaid, 'description'>): string {
  return quoted(nameIn(description));
}

function place(range: RangeSaid, crossing: BreakEvenPoint, level = ''): string {
  return placeText(range, crossing).replace(/\(/u, `(${level}`);
}

/** `Break-even in “…” at 6.3 (95 % interval 5.1 to 7.4): below, “hop” takes less instrument time; above, “swap”.` */
function crossingSentence(
  crossing: BreakEvenPoint,
  { range, measure, level }: BreakEvenFound,
  isFirst: boolean,
): string {
  const at = place(range, crossing, isFirst ? levelText(level) : '');
  return `Break-even in ${nameOf(range)} at ${at}: below, ${quoted(crossing.below)} ${betterWords(measure)}; above, ${quoted(crossing.above)}.`;
}

/** Where, away from a break-even, the two show no clear difference. */
function openSentences({ points, crossings, pattern }: BreakEvenLine, found: BreakEvenFound): readonly string[] {
  const [a, b] = found.between.map(quoted);
  const isNear = (number: number) => crossings.some(({ low, high }) => number >= low && number <= high);
  const open = points.filter((point) => judgedAt(point) === 'unclear' && !isNear(point.number));
  const away = crossings.length === 0 ? open : open.filter(({ number }) => isOutside(number, points, crossings));
  if (away.length === 0) return [];
  if (away.length === points.length) return [`${a} and ${b} show a clear difference at no setting tried.`];
  const winner = pattern === 'no clear difference' ? points.find(({ better }) => better !== null)?.better : undefined;
  const rest =
    winner === undefined || winner === null ? '' : `; elsewhere ${quoted(winner)} ${betterWords(found.measure)}`;
  return [`${a} and ${b} show no clear difference at ${listed(away.map(({ setting }) => setting))}${rest}.`];
}

/** Whether a setting lies on neither side next to a break-even, up to the first setting with a clear difference. */
function isOutside(number: number, points: BreakEvenLine['points'], crossings: BreakEvenLine['crossings']): boolean {
  return crossings.every(({ value }) => {
    const [from, to] = [Math.min(number, value), Math.max(number, value)];
    return points.some((point) => point.better !== null && point.number > from && point.number < to);
  });
}

function inPlane(found: BreakEvenFound): InWords {
  const { lines, range, across } = found;
  const at = (line: BreakEvenLine) => line.across ?? '';
  const crossed = lines.filter(({ pattern }) => pattern === 'crosses');
  const where = (line: BreakEvenLine, isFirst: boolean) =>
    `${listed(line.crossings.map((crossing) => place(range, crossing, isFirst ? levelText(found.level) : '')))} at ${at(line)}`;
  const [first] = crossed.flatMap(({ crossings }) => crossings);
  const other = across === null ? '' : nameOf(across);
  const ends = crossed.length < 2 ? crossed : [crossed[0], crossed[crossed.length - 1]];
  const sides =
    crossed.length > 0 && isOneWay(crossed)
      ? `Below the line ${quoted(first.below)} ${betterWords(found.measure)}, above it ${quoted(first.above)}.`
      : 'Who is better on which side changes along the line: see the table.';
  const wins = found.between.flatMap((name) => {
    const won = lines.filter(
      ({ pattern, points }) => pattern === 'one is better throughout' && points[0].better === name,
    );
    return won.length === 0
      ? []
      : [`${quoted(name)} ${betterWords(found.measure)} over the whole range at ${listed(won.map(at))}.`];
  });
  const rest = (['no clear difference', 'equal throughout'] as const).flatMap((pattern) => {
    const alike = lines.filter((line) => line.pattern === pattern);
    return alike.length === 0 ? [] : [`At ${listed(alike.map(at))}: ${pattern}.`];
  });
  if (crossed.length === 0)
    return {
      headline: [`There is no break-even in ${nameOf(range)} at any setting of ${other}.`, ...wins],
      findings: rest,
    };
  const all = `By ${other}, the break-even in ${nameOf(range)} lies at ${crossed.map((line, number) => where(line, number === 0)).join('; ')}.`;
  return {
    headline: fullestWithin([
      [all, sides],
      [
        `By ${other}, the break-even in ${nameOf(range)} lies at ${listed(ends.map((line, number) => where(line, number === 0)))}.`,
        sides,
      ],
      [`The break-even in ${nameOf(range)} lies at ${where(ends[0], true)}.`],
    ]),
    findings: [...(ends.length === crossed.length ? [] : [all]), ...wins, ...rest],
  };
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
  const where = found.lines.some(({ crossings }) => crossings.length > 0) ? 'At the break-even' : 'At the range limits';
  if (differing.length === 0)
    return { sentences: [`${where}, yield and undetected bad share show no clear difference.`], isOpen: false };
  const some = differing.length < places.length ? ' (at some of them)' : '';
  const data = `${where}${some}, ${dataWords(differing[0], found.between[1], currency)}`;
  const better = winnerOf(found);
  if (better !== null && differing.every((each) => speaksFor(each, better === found.between[1])))
    return { sentences: [`${data}, so the data speak for ${quoted(better)} too.`], isOpen: false };
  return {
    sentences: [`${data}: ${measureName(found.measure)} alone does not decide between them.`],
    isOpen: true,
  };
}

/** Who is better everywhere; null where that changes or is not clear. */
function winnerOf({ lines }: BreakEvenFound): string | null {
  const winners = lines.map(({ pattern, points }) =>
    pattern === 'one is better throughout' ? points[0].better : null,
  );
  return new Set(winners).size === 1 ? winners[0] : null;
}

function withUnit(number: number, unit: string): string {
  return unit === '' ? String(number) : `${number} ${unit}`;
}
