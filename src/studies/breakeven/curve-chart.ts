import { estimateLine, numberText, SHARE, unitName } from '../../wording/numbers.js';
import { listed } from '../../wording/phrases.js';
import type { BreakEven } from './results.js';
import { measureName } from '../../analysis/words.js';
import { placeText } from '../../analysis/vary/axis.js';
import { NEUTRALS, STRATEGY_TONES } from '../../report/palette.js';
import { curveTable, differenceScale, rangeNumber } from './tables.js';
import { padded, rangeTitle } from '../../report/charts/axes.js';
import type { Chart } from '../../report/charts/chart.js';
import { box, curve, label, rule } from '../../report/charts/marks.js';
import { picture } from '../../report/charts/picture.js';

/** The difference along the range, with every place at which it passes through zero. */
export const curveChart: Chart<BreakEven> = {
  id: 'curve',
  title: 'The difference along the range',
  caption: (result) => {
    const [first, second] = result.between;
    return (
      `“${second}” − “${first}” in ${measureName(result.measure)}, with common random numbers at every setting; the band is the ${numberText(result.level, SHARE)} interval, all settings together.` +
      (result.lines[0].crossings.length === 0
        ? ''
        : ` Vertical lines are the break-evens, each in the shade of its own ${numberText(result.level, SHARE)} interval.`)
    );
  },
  alt: (result) => {
    const [line] = result.lines;
    const [first, last] = [line.points[0], line.points[line.points.length - 1]];
    const scale = differenceScale(result, [line]);
    const crossed = line.crossings.map((crossing) => placeText(result.range, crossing));
    return `A line with a band about it, against a zero line: ${estimateLine(first.difference, scale, 'difference')} at ${rangeNumber(result, first.number)}, ${estimateLine(last.difference, scale, 'difference')} at ${rangeNumber(result, last.number)}. ${crossed.length === 0 ? 'No break-even.' : `Break-even at ${listed(crossed)}.`}`;
  },
  drawing: (result) => {
    const { range, lines } = result;
    const [line] = lines;
    const scale = differenceScale(result, [line]);
    const points = line.points.map(({ number, difference: { value, low, high } }) => ({
      x: number,
      value: value / scale.divisor,
      low: low / scale.divisor,
      high: high / scale.divisor,
    }));
    const tone = STRATEGY_TONES[0];
    return picture({
      panels: [
        {
          height: 340,
          x: { title: rangeTitle(range.description, range.unit), domain: [range.low, range.high], isLog: range.isLog },
          y: {
            title: `Difference in ${measureName(result.measure)}${scale.unit === '' ? '' : ` (${unitName(scale)})`}`,
            domain: padded([0, ...points.flatMap(({ low, high }) => [low, high])], 0.06, 1e-9),
          },
          marks: [
            box(line.crossings.map(({ low, high }) => ({ x: low, x2: high }))),
            rule([{ y: 0 }]),
            ...curve(points, { tone }, 26),
            rule(
              line.crossings.map(({ value }) => ({ x: value })),
              { tone: NEUTRALS.ink, width: 1.3, dash: [4, 3] },
            ),
            label(
              line.crossings.map((crossing) => ({ x: crossing.value, text: placeText(range, crossing) })),
              { baseline: 'top', dy: 3, hasGround: true },
              { y: 0 },
            ),
          ],
        },
      ],
    });
  },
  table: (result) => curveTable(result, result.lines[0]),
};
