import type { BreakEven } from './results.js';
import { measureName } from '../../analysis/words.js';
import { csv } from '../../report/csv.js';
import { plainUnit } from '../../report/measure-scale.js';
import { plainText } from '../../report/text.js';

/** `breakeven.csv`: a row for each setting tried. */
export function breakEvenCsv(result: BreakEven): string {
  const { range, across, measure, scenario } = result;
  const unit = plainUnit(measure, scenario.currency);
  const name = measureName(result.measure);
  const [first, second] = result.between.map(plainText);
  return csv([
    [
      ...(across === null ? [] : [across.path]),
      `${range.path}${range.unit === '' ? '' : ` (${range.unit})`}`,
      `${name}, ${first} (${unit})`,
      `${name}, ${second} (${unit})`,
      `difference (${unit})`,
      `low (${unit})`,
      `high (${unit})`,
      'better',
      'replications',
    ],
    ...result.lines.flatMap((line) =>
      line.points.map((point) => [
        ...(across === null ? [] : [line.across ?? '']),
        point.number,
        point.first,
        point.second,
        point.difference.value,
        point.difference.low,
        point.difference.high,
        plainText(point.better ?? ''),
        point.replications,
      ]),
    ),
  ]);
}
