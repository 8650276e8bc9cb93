import { isByHand } from '../../study/by-hand.js';
import { measureName } from '../../study/words.js';
import type { Effect, Sensitivity } from '../../study/sensitivity/results.js';
import { type Chart, SCHEMA, WIDTH } from '../charts/chart.js';
import { chartConfig } from '../charts/config.js';
import { nameRoom } from '../charts/row-names.js';
import { estimateLine, numberText, SHARE, unitName } from '../format.js';
import { NEUTRALS, STRATEGY_SHAPES, STRATEGY_TONES } from '../palette.js';
import { listed, uniqueLabels } from '../text.js';
import { effectTable, sensitivityScale } from './tables.js';

const MOST = 18;
const KINDS = ['mu*, how much it matters', 'sigma, how much that hangs on the rest'];

function shown({ morris }: Sensitivity): readonly Effect[] {
  return (morris?.effects ?? []).filter(({ muStar }) => muStar.value > 0).slice(0, MOST);
}

/** Elementary effects of all values at once. */
export const effectsChart: Chart<Sensitivity> = {
  id: 'effects',
  title: 'All values at once',
  caption: (result) => {
    const { morris } = result;
    if (morris === null)
      return isByHand(result.stopping)
        ? 'It was stopped by hand before all values were moved at once.'
        : 'Nothing is only assumed, so there is nothing to draw.';
    const noise = numberText(morris.noise, sensitivityScale(result));
    return `Elementary effects on the difference in ${measureName(result.measure)}: what a value changes over its whole range, while all others are anywhere within theirs (${numberText(morris.trajectories)} trajectories, ${numberText(result.level, SHARE)} intervals). A sigma near mu* or above it means that the effect hangs on other values or on where in the range it is. The dotted upright is the error that luck alone gives to one effect, ${noise}.`;
  },
  alt: (result) =>
    `Points with intervals. ${listed(
      shown(result)
        .slice(0, 3)
        .map(({ path, muStar }) => `${path}: ${estimateLine(muStar, sensitivityScale(result))}`),
    )}.`,
  spec: (result) => {
    const rows = shown(result);
    if (rows.length === 0 || result.morris === null) return null;
    const scale = sensitivityScale(result);
    const names = uniqueLabels(
      rows.map(({ path }) => path),
      46,
    );
    const values = rows.flatMap(({ muStar, sigma }, place) => [
      {
        name: names[place],
        kind: KINDS[0],
        value: muStar.value / scale.divisor,
        low: Math.max(0, muStar.low) / scale.divisor,
        high: muStar.high / scale.divisor,
      },
      { name: names[place], kind: KINDS[1], value: sigma / scale.divisor },
    ]);
    const x = {
      type: 'quantitative' as const,
      title: `Effect${scale.unit === '' ? '' : ` (${unitName(scale)})`}`,
      scale: { zero: true },
      axis: { format: '~f', tickCount: 8 },
    };
    const y = {
      field: 'name',
      type: 'nominal' as const,
      title: null,
      sort: [...names],
      axis: { domain: false, ticks: false, labelColor: NEUTRALS.ink.light, grid: true },
    };
    const kind = { field: 'kind', type: 'nominal' as const, legend: { title: null, orient: 'top' as const } };
    return {
      $schema: SCHEMA,
      config: chartConfig(),
      width: WIDTH - nameRoom(names) - 30,
      height: 26 * rows.length,
      layer: [
        {
          data: { values: [{}] },
          mark: { type: 'rule', color: NEUTRALS.soft.light, strokeWidth: 1.2, strokeDash: [2, 2] },
          encoding: { x: { datum: result.morris.noise / scale.divisor, type: 'quantitative' } },
        },
        {
          data: { values: values.filter((value) => 'low' in value) },
          mark: { type: 'rule', color: STRATEGY_TONES[0].light, strokeWidth: 2.4 },
          encoding: { y, x: { ...x, field: 'low' }, x2: { field: 'high' } },
        },
        {
          data: { values },
          mark: { type: 'point', filled: true, size: 70, opacity: 1 },
          encoding: {
            y,
            x: { ...x, field: 'value' },
            color: { ...kind, scale: { domain: KINDS, range: [STRATEGY_TONES[0].light, STRATEGY_TONES[1].light] } },
            shape: { ...kind, scale: { domain: KINDS, range: STRATEGY_SHAPES.slice(0, 2) } },
          },
        },
      ],
    };
  },
  table: (result) => effectTable(result, result.morris?.effects ?? []),
};
