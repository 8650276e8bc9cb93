import { measureName } from '../../study/words.js';
import type { Sensitivity, Swing } from '../../study/sensitivity/results.js';
import { type Chart, padded, SCHEMA, WIDTH } from '../charts/chart.js';
import { chartConfig } from '../charts/config.js';
import { nameRoom } from '../charts/row-names.js';
import { estimateLine, numberText, SHARE, unitName } from '../format.js';
import { NEUTRALS, STRATEGY_TONES } from '../palette.js';
import { listed, uniqueLabels } from '../text.js';
import { sensitivityScale, swingTable } from './tables.js';

const MOST = 18;

/** Values that change something, the most first. */
function shown({ swings }: Sensitivity): readonly Swing[] {
  return swings.filter(({ most }) => most > 0).slice(0, MOST);
}

/** The difference at both ends of each range, one value at a time. */
export const tornadoChart: Chart<Sensitivity> = {
  id: 'tornado',
  title: 'One value at a time',
  caption: (result) => {
    const [first, second] = result.between;
    const rows = shown(result);
    if (rows.length === 0) return 'No value changes the difference, so there is nothing to draw.';
    const rest = result.swings.length - rows.length;
    return `Difference in ${measureName(result.measure)}, “${second}” less “${first}”, with each value at the ends of its range and all others as they stand; thin lines are ${numberText(result.level, SHARE)} intervals, each by itself. The dashed upright is the difference with all values as they stand; bars that reach over the zero line turn the verdict.${rest > 0 ? ` ${numberText(rest)} more change it less or not at all.` : ''}`;
  },
  alt: (result) => {
    const scale = sensitivityScale(result);
    return `Bars about ${estimateLine(result.difference, scale, true)}. ${listed(
      shown(result)
        .slice(0, 3)
        .map(
          ({ path, low, high }) =>
            `${path} from ${numberText(low.difference?.value ?? 0, scale)} to ${numberText(high.difference?.value ?? 0, scale)}`,
        ),
    )}.`;
  },
  spec: (result) => {
    const rows = shown(result);
    if (rows.length === 0) return null;
    const scale = sensitivityScale(result);
    const names = uniqueLabels(
      rows.map(({ path }) => path),
      46,
    );
    const centre = result.difference.value / scale.divisor;
    const values = rows.flatMap(({ low, high }, place) =>
      [
        { end: 'low end of the range', of: low },
        { end: 'high end of the range', of: high },
      ].flatMap(({ end, of }) =>
        of.difference === null
          ? []
          : [
              {
                name: names[place],
                end,
                centre,
                value: of.difference.value / scale.divisor,
                low: of.difference.low / scale.divisor,
                high: of.difference.high / scale.divisor,
              },
            ],
      ),
    );
    const domain = padded([0, centre, ...values.flatMap(({ low, high }) => [low, high])], 0.04, 1e-9);
    const x = {
      type: 'quantitative' as const,
      title: `Difference in ${measureName(result.measure)}${scale.unit === '' ? '' : ` (${unitName(scale)})`}`,
      scale: { domain, nice: false },
      axis: { format: '~f', tickCount: 8 },
    };
    const y = {
      field: 'name',
      type: 'nominal' as const,
      title: null,
      sort: [...names],
      axis: { domain: false, ticks: false, labelColor: NEUTRALS.ink.light },
    };
    const ends = {
      field: 'end',
      type: 'nominal' as const,
      scale: {
        domain: ['low end of the range', 'high end of the range'],
        range: [STRATEGY_TONES[3].light, STRATEGY_TONES[0].light],
      },
      legend: { title: null, orient: 'top' as const, symbolType: 'square' },
    };
    return {
      $schema: SCHEMA,
      config: chartConfig(),
      width: WIDTH - nameRoom(names) - 30,
      height: 26 * rows.length,
      layer: [
        {
          data: { values },
          mark: { type: 'bar', height: 14 },
          encoding: { y, x: { ...x, field: 'centre' }, x2: { field: 'value' }, color: ends },
        },
        {
          data: { values },
          mark: { type: 'rule', color: NEUTRALS.ink.light, strokeWidth: 1 },
          encoding: { y, x: { ...x, field: 'low' }, x2: { field: 'high' } },
        },
        {
          data: { values: [{}] },
          mark: { type: 'rule', color: NEUTRALS.ink.light, strokeWidth: 1.4 },
          encoding: { x: { datum: 0, type: 'quantitative' } },
        },
        {
          data: { values: [{}] },
          mark: { type: 'rule', color: NEUTRALS.ink.light, strokeWidth: 1.2, strokeDash: [4, 3] },
          encoding: { x: { datum: centre, type: 'quantitative' } },
        },
      ],
    };
  },
  table: swingTable,
};
