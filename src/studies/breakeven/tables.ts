import { judgedWord } from '../../analysis/effect-words.js';
import { measureName } from '../../analysis/words.js';
import type { BreakEven, BreakEvenLine } from './results.js';
import { placeText } from '../../analysis/vary/axis.js';
import { estimateLine, numberText, type Scale } from '../../wording/numbers.js';
import { scaleUpTo } from '../../report/measure-scale.js';
import type { Table } from '../../report/table.js';

/** Scale in which the differences of a line, or of all, are shown. */
export function differenceScale({ measure, scenario }: BreakEven, lines: readonly BreakEvenLine[]): Scale {
  const sizes = lines.flatMap(({ points }) => points.map(({ difference }) => Math.abs(difference.value)));
  return scaleUpTo(measure, Math.max(...sizes, 0), scenario.currency);
}

/** A number of the range with its unit. */
export function rangeNumber({ range }: Pick<BreakEven, 'range'>, number: number): string {
  return numberText(number, { divisor: 1, unit: range.unit });
}

/** One row a setting tried. */
export function curveTable(result: BreakEven, line: BreakEvenLine): Table {
  const scale = differenceScale(result, [line]);
  return {
    columns: [
      { label: 'Setting' },
      { label: `Difference in ${measureName(result.measure)}`, numeric: true },
      { label: 'Better there' },
      { label: 'Replications', numeric: true },
    ],
    rows: line.points.map(({ number, difference, smallest, better, replications }) => [
      rangeNumber(result, number),
      estimateLine(difference, scale, 'difference'),
      judgedWord({ estimate: difference, smallest }, better ?? ''),
      numberText(replications),
    ]),
  };
}

/** One row a setting of the second path. */
export function planeTable(result: BreakEven): Table {
  return {
    columns: [
      { label: result.across?.path ?? '' },
      { label: `Break-even in ${result.range.path}`, numeric: true },
      { label: 'Better below' },
      { label: 'Better above' },
    ],
    rows: result.lines.flatMap((line) =>
      line.crossings.length === 0
        ? [[line.across ?? '', 'none', ...bothEnds(line)]]
        : line.crossings.map((crossing) => [
            line.across ?? '',
            placeText(result.range, crossing),
            crossing.below,
            crossing.above,
          ]),
    ),
  };
}

/** Who is better at either end of a range without a break-even. */
function bothEnds({ points, pattern }: BreakEvenLine): readonly [string, string] {
  if (pattern === 'equal throughout') return ['equal', 'equal'];
  const [first, last] = [points[0], points[points.length - 1]].map(({ better }) => better ?? 'no clear difference');
  return [first, last];
}
