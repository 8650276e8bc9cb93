import type { BreakEven } from '../../study/breakeven/results.js';
import { placeText } from '../../study/vary/axis.js';
import { type Chart, SCHEMA, WIDTH } from '../charts/chart.js';
import { chartConfig } from '../charts/config.js';
import { numberText, SHARE } from '../format.js';
import { NEUTRALS, STRATEGY_SHAPES, STRATEGY_TONES } from '../palette.js';
import { listed, uniqueLabels } from '../text.js';
import { planeTable } from './tables.js';

const INK = NEUTRALS.ink.light;

/** The break-even of the first path for each setting of the second, and who is better at every setting tried. */
export const planeChart: Chart<BreakEven> = {
  id: 'plane',
  title: 'The break-even line',
  caption: (result) =>
    `Bars are the ${numberText(result.level, SHARE)} intervals of the break-even in ${result.range.path}, for each setting of ${result.across?.path ?? ''}. Points are the settings tried, by who is better there, all settings of a column together; where the two are not told apart there is none.`,
  alt: (result) => {
    const crossed = result.lines.filter(({ crossings }) => crossings.length > 0);
    return crossed.length === 0
      ? 'Points only: there is no break-even.'
      : `Bars of the break-even among points that say who is better: ${listed(
          crossed.map(
            ({ across, crossings }) =>
              `${crossings.map((crossing) => placeText(result.range, crossing)).join(' and ')} at ${across ?? ''}`,
          ),
        )}.`;
  },
  spec: (result) => {
    const { range, across } = result;
    const isNumber = result.lines.every(({ acrossNumber }) => acrossNumber !== null);
    const labels = [...uniqueLabels(result.between, 30)];
    const tones = [STRATEGY_TONES[0].light, STRATEGY_TONES[1].light];
    const points = result.lines.flatMap(({ across: setting, acrossNumber, points: tried }) =>
      tried.flatMap(({ number, better }) =>
        better === null
          ? []
          : [{ across: isNumber ? acrossNumber : setting, number, better: labels[result.between.indexOf(better)] }],
      ),
    );
    const crossings = result.lines.flatMap(({ across: setting, acrossNumber, crossings: found }) =>
      found.map(({ value, low, high }) => ({ across: isNumber ? acrossNumber : setting, value, low, high })),
    );
    const x = isNumber
      ? {
          field: 'across',
          type: 'quantitative' as const,
          title: `${across?.path ?? ''}${(across?.unit ?? '') === '' ? '' : ` (${across?.unit ?? ''})`}`,
          scale: { type: across?.isLog === true ? ('log' as const) : ('linear' as const), zero: false, padding: 26 },
          axis: { grid: false, format: '~f', tickCount: 9 },
        }
      : {
          field: 'across',
          type: 'nominal' as const,
          title: across?.path ?? '',
          sort: result.lines.map((line) => line.across ?? ''),
          scale: {},
          axis: { labelAngle: 0, grid: false },
        };
    const y = {
      type: 'quantitative' as const,
      title: `${range.path}${range.unit === '' ? '' : ` (${range.unit})`}`,
      scale: {
        type: range.isLog ? ('log' as const) : ('linear' as const),
        domain: [range.low, range.high],
        nice: false,
      },
      axis: { format: '~f', tickCount: 8 },
    };
    const better = {
      field: 'better',
      type: 'nominal' as const,
      legend: { title: 'Better', orient: 'top' as const },
    };
    return {
      $schema: SCHEMA,
      config: chartConfig(),
      width: WIDTH,
      height: 380,
      autosize: { type: 'fit-x', contains: 'padding' },
      layer: [
        {
          data: { values: points },
          mark: { type: 'point', filled: true, size: 46, opacity: 0.85 },
          encoding: {
            x,
            y: { ...y, field: 'number' },
            color: { ...better, scale: { domain: labels, range: tones } },
            shape: { ...better, scale: { domain: labels, range: STRATEGY_SHAPES.slice(0, 2) } },
          },
        },
        {
          data: { values: result.lines.every(({ crossings: found }) => found.length <= 1) ? crossings : [] },
          mark: { type: 'line', strokeWidth: 1.4, strokeDash: [4, 3] },
          encoding: { x, y: { ...y, field: 'value' }, color: { value: INK } },
        },
        {
          data: { values: crossings },
          mark: { type: 'rule', strokeWidth: 2.4 },
          encoding: { x, y: { ...y, field: 'low' }, y2: { field: 'high' }, color: { value: INK } },
        },
        {
          data: { values: crossings },
          mark: { type: 'tick', thickness: 2.4, size: 16, orient: 'horizontal' },
          encoding: { x, y: { ...y, field: 'value' }, color: { value: INK } },
        },
      ],
    };
  },
  table: planeTable,
};
