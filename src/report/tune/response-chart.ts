import { shortText } from '../../study/tune/answer.js';
import type { Estimate } from '../../study/results.js';
import { isAscending, numberOf } from '../../study/tune/order.js';
import type { TunedSetting, TuneResult } from '../../study/tune/results.js';
import { settingText } from '../../study/vary/varied.js';
import { type Chart, padded, SCHEMA, WIDTH } from '../charts/chart.js';
import { chartConfig } from '../charts/config.js';
import { estimateLine, type Scale, SHARE, unitName } from '../format.js';
import { NEUTRALS } from '../palette.js';
import { standingScales } from './standings.js';
import { allSettings, capital, goalScale, settingsTable } from './tables.js';

/** What is drawn over the settings of the one value that was varied. */
interface Drawn {
  readonly title: string;
  readonly scale: Scale;
  readonly of: (setting: TunedSetting) => Estimate | null;
  /** A stretch that is set off, in the unit of the estimates. */
  readonly band: readonly [number, number] | null;
}

/** The goal over the settings of one value, each with its interval. */
export const responseChart: Chart<TuneResult> = {
  id: 'response',
  title: 'The response',
  caption: (result) =>
    `${capital(result.goal.title)} at each setting, with 95 % intervals, all on the same luck. ` +
    (result.winner === null
      ? 'No setting is known to meet the yield.'
      : 'The band is what counts as equal to the winner. ') +
    'The dashed line is the present setting. Intervals of single settings may overlap where the paired differences do not: these decide.',
  alt: (result) => {
    const said = result.settings.map(
      (each) =>
        `${shortText(each.settings)}: ${each.goal === null ? 'nothing good' : estimateLine(each.goal, goalScale(result))}, ${each.standing}`,
    );
    return `Points with intervals over the settings of ${result.varied[0].path}. ${said.join('; ')}.`;
  },
  spec: (result) => {
    const best = result.winner === null ? null : result.settings[result.winner].goal;
    const { size } = result.procedure.zone;
    const band = best === null ? null : ([best.value - size, best.value + size] as const);
    return spec(result, { title: capital(result.goal.title), scale: goalScale(result), of: ({ goal }) => goal, band });
  },
  table: (result) => settingsTable(result, allSettings(result)),
};

/** The yield over the same settings, where some yield is wanted. */
export const yieldChart: Chart<TuneResult> = {
  id: 'yield',
  title: 'The yield beside it',
  caption: ({ constraint }) =>
    `Yield at each setting, with 95 % intervals.${constraint === null ? '' : ' The band is the least yield that is wanted, give or take what may be found either way.'}`,
  alt: (result) =>
    `Points with intervals. ${result.settings.map((each) => `${shortText(each.settings)}: ${estimateLine(each.measures.yield, SHARE)}`).join('; ')}.`,
  spec: (result) => {
    const { constraint } = result;
    const band =
      constraint === null
        ? null
        : ([
            constraint.yieldAtLeast - constraint.tolerance,
            Math.min(1, constraint.yieldAtLeast + constraint.tolerance),
          ] as const);
    return spec(result, { title: 'Yield', scale: SHARE, of: ({ measures }) => measures.yield, band });
  },
  table: (result) => settingsTable(result, allSettings(result)),
};

/** An axis of numbers where all settings are, else one place for each in the order given. */
function axisOf({ varied }: TuneResult) {
  const [{ path, kind, settings, span }] = varied;
  const numbers = settings.map(numberOf);
  if (kind === 'choice' || span === null || numbers.includes(null)) {
    const sort = settings.map(settingText);
    const x = { field: 'setting', type: 'ordinal' as const, sort, title: path };
    return { x: { ...x, scale: { padding: 0.5 }, axis: { grid: false, labelAngle: 0, labelOverlap: true } }, at: null };
  }
  const { unit, isLog } = span;
  const values = numbers.filter((number) => number !== null);
  const [low, high] = padded(values, 0.03, 1e-9);
  return {
    x: {
      field: 'number',
      type: 'quantitative' as const,
      title: unit === '' ? path : `${path} (${unit})`,
      scale: isLog
        ? { type: 'log' as const, domain: [Math.min(...values) / 1.05, Math.max(...values) * 1.05], nice: false }
        : { domain: [low, high], nice: false, zero: false },
      axis: { grid: false, format: '~f', tickCount: 12 },
    },
    at: numberOf,
  };
}

function spec(result: TuneResult, { title, scale, of, band }: Drawn) {
  const { x, at } = axisOf(result);
  const points = result.settings.flatMap((each) => {
    const estimate = of(each);
    if (estimate === null) return [];
    const [setting] = each.settings;
    return [
      {
        setting: settingText(setting),
        number: at === null ? 0 : at(setting),
        value: estimate.value / scale.divisor,
        low: estimate.low / scale.divisor,
        high: estimate.high / scale.divisor,
        standing: each.standing,
      },
    ];
  });
  const present = of(result.present);
  const edges = band?.map((edge) => edge / scale.divisor) ?? [];
  const ends = [...points.flatMap(({ low, high }) => [low, high]), ...edges];
  const domain = padded(present === null ? ends : [...ends, present.value / scale.divisor], 0.06, 1e-6);
  const axisTitle = scale.unit === '' ? title : `${title} (${unitName(scale)})`;
  const y = (field: string) => ({
    field,
    type: 'quantitative' as const,
    title: axisTitle,
    scale: { domain, nice: false, zero: false },
    axis: { format: '~f', tickCount: 7 },
  });
  const { color, shape } = standingScales(points.map(({ standing }) => standing));
  const lineTone = NEUTRALS.line.light;
  return {
    $schema: SCHEMA,
    config: chartConfig(),
    width: WIDTH,
    height: 320,
    autosize: { type: 'fit-x' as const, contains: 'padding' as const },
    layer: [
      ...(band === null
        ? []
        : [
            {
              data: { values: [{ from: edges[0], to: edges[1] }] },
              mark: { type: 'rect' as const, color: NEUTRALS.faint.light },
              encoding: { y: y('from'), y2: { field: 'to' } },
            },
          ]),
      ...(present === null
        ? []
        : [
            {
              data: { values: [{ present: present.value / scale.divisor }] },
              mark: { type: 'rule' as const, color: NEUTRALS.soft.light, strokeDash: [5, 4], strokeWidth: 1.2 },
              encoding: { y: y('present') },
            },
          ]),
      ...(!isAscending(result.varied[0])
        ? []
        : [
            {
              data: { values: points },
              mark: { type: 'line' as const, color: lineTone, strokeWidth: 1.6 },
              encoding: { x, y: y('value') },
            },
          ]),
      {
        data: { values: points },
        mark: { type: 'rule' as const, strokeWidth: 2.2 },
        encoding: { x, y: y('low'), y2: { field: 'high' }, color },
      },
      {
        data: { values: points },
        mark: { type: 'point' as const, filled: true, size: 90, opacity: 1 },
        encoding: { x, y: y('value'), color, shape },
      },
    ],
  };
}
