import type { BreakEven } from '../../study/breakeven/results.js';
import { measureName } from '../../study/words.js';
import { placeText } from '../../study/vary/axis.js';
import { type Chart, padded, SCHEMA, WIDTH } from '../charts/chart.js';
import { chartConfig } from '../charts/config.js';
import { estimateLine, numberText, SHARE, unitName } from '../format.js';
import { NEUTRALS, STRATEGY_TONES } from '../palette.js';
import { listed } from '../text.js';
import { curveTable, differenceScale, rangeNumber } from './tables.js';

/** The difference along the range, with every place at which it passes through zero. */
export const curveChart: Chart<BreakEven> = {
  id: 'curve',
  title: 'The difference along the range',
  caption: (result) => {
    const [first, second] = result.between;
    return (
      `“${second}” less “${first}” in ${measureName(result.measure)}, on the same luck at every setting; the band is the ${numberText(result.level, SHARE)} interval, all settings together.` +
      (result.lines[0].crossings.length === 0
        ? ''
        : ` Uprights are the break-evens, each in the shade of its own ${numberText(result.level, SHARE)} interval.`)
    );
  },
  alt: (result) => {
    const [line] = result.lines;
    const [first, last] = [line.points[0], line.points[line.points.length - 1]];
    const scale = differenceScale(result, [line]);
    const crossed = line.crossings.map((crossing) => placeText(result.range, crossing));
    return `A line with a band about it, against a zero line: ${estimateLine(first.difference, scale, true)} at ${rangeNumber(result, first.number)}, ${estimateLine(last.difference, scale, true)} at ${rangeNumber(result, last.number)}. ${crossed.length === 0 ? 'No break-even.' : `Break-even at ${listed(crossed)}.`}`;
  },
  spec: (result) => {
    const [line] = result.lines;
    const scale = differenceScale(result, [line]);
    const points = line.points.map(({ number, difference: { value, low, high } }) => ({
      number,
      value: value / scale.divisor,
      low: low / scale.divisor,
      high: high / scale.divisor,
    }));
    const [bottom, top] = padded([0, ...points.flatMap(({ low, high }) => [low, high])], 0.06, 1e-9);
    const { range } = result;
    const x = {
      field: 'number',
      type: 'quantitative' as const,
      title: `${range.path}${range.unit === '' ? '' : ` (${range.unit})`}`,
      scale: {
        type: range.isLog ? ('log' as const) : ('linear' as const),
        domain: [range.low, range.high],
        nice: false,
      },
      axis: { grid: false, tickCount: 10, format: '~f' },
    };
    const y = {
      type: 'quantitative' as const,
      title: `Difference in ${measureName(result.measure)}${scale.unit === '' ? '' : ` (${unitName(scale)})`}`,
      scale: { domain: [bottom, top], nice: false },
      axis: { format: '~f', tickCount: 7 },
    };
    const tone = STRATEGY_TONES[0].light;
    const crossings = line.crossings.map((crossing) => ({
      ...crossing,
      beside: [],
      label: placeText(range, crossing),
    }));
    return {
      $schema: SCHEMA,
      config: chartConfig(),
      width: WIDTH,
      height: 340,
      autosize: { type: 'fit-x', contains: 'padding' },
      layer: [
        {
          data: { values: crossings },
          mark: { type: 'rect', color: NEUTRALS.faint.light },
          encoding: { x: { ...x, field: 'low' }, x2: { field: 'high' } },
        },
        {
          data: { values: points },
          mark: { type: 'area', color: tone, opacity: 0.18 },
          encoding: { x, y: { ...y, field: 'low' }, y2: { field: 'high' } },
        },
        {
          data: { values: [{}] },
          mark: { type: 'rule', color: NEUTRALS.soft.light, strokeWidth: 1 },
          encoding: { y: { datum: 0, type: 'quantitative' } },
        },
        {
          data: { values: points },
          mark: { type: 'line', color: tone, strokeWidth: 2.2, point: { color: tone, size: 26 } },
          encoding: { x, y: { ...y, field: 'value' } },
        },
        {
          data: { values: crossings },
          mark: { type: 'rule', color: NEUTRALS.ink.light, strokeWidth: 1.3, strokeDash: [4, 3] },
          encoding: { x: { ...x, field: 'value' } },
        },
        {
          data: { values: crossings },
          mark: { type: 'text', baseline: 'bottom', dy: -5 },
          encoding: { x: { ...x, field: 'value' }, y: { value: 0 }, text: { field: 'label' } },
        },
      ],
    };
  },
  table: (result) => curveTable(result, result.lines[0]),
};
