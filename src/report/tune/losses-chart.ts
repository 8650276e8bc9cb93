import type { TunedSetting, TuneResult } from '../../study/tune/results.js';
import { type Chart, padded, SCHEMA } from '../charts/chart.js';
import { chartConfig } from '../charts/config.js';
import { estimateLine, fixed, numberText, SHARE, unitName, withUnit } from '../format.js';
import { NEUTRALS } from '../palette.js';
import { listed, uniqueLabels } from '../text.js';
import { standingScales } from './standings.js';
import { axisLabel, bestFirst, lossScale, settingsTable } from './tables.js';

/** Rows in the picture. */
const MOST = 30;

function rowsOf(result: TuneResult): readonly TunedSetting[] {
  return bestFirst(result)
    .filter(({ loss, standing }) => loss !== null || standing === 'winner')
    .slice(0, MOST);
}

/** What a wrong choice costs: the paired difference of each setting from the winner. */
export const lossesChart: Chart<TuneResult> = {
  id: 'losses',
  title: 'What a wrong choice costs',
  caption: (result) =>
    result.winner === null
      ? 'Without a winner there is nothing to lose against.'
      : `How much worse each setting is than the winner in ${result.goal.title}, paired on the same luck; intervals hold for all ${numberText(result.confidence.comparisons)} differences together. One that holds zero tells nothing apart; the band is what counts as equal.${result.settings.length > MOST ? ` The best ${String(MOST)} are shown.` : ''}`,
  alt: (result) =>
    result.winner === null
      ? 'No picture: there is no winner.'
      : `Points with intervals about a zero line, a row a setting. ${listed(
          rowsOf(result).map((each) =>
            each.loss === null
              ? `${axisLabel(each)} is the winner`
              : `${axisLabel(each)}: ${estimateLine(each.loss, lossScale(result), true)}`,
          ),
        )}.`,
  spec: (result) => {
    if (result.winner === null) return null;
    const scale = lossScale(result);
    const settings = rowsOf(result);
    const labels = uniqueLabels(
      settings.map((each) => (each.isPresent ? `${axisLabel(each)} (present)` : axisLabel(each))),
      40,
    );
    const rows = settings.map(({ loss, lossShare, standing }, place) => ({
      setting: labels[place],
      value: (loss?.value ?? 0) / scale.divisor,
      low: (loss?.low ?? 0) / scale.divisor,
      high: (loss?.high ?? 0) / scale.divisor,
      share: lossShare === null ? '' : withUnit(`${lossShare > 0 ? '+' : ''}${fixed(100 * lossShare, 1)}`, SHARE),
      standing,
    }));
    const size = result.procedure.zone.size / scale.divisor;
    const domain = padded([-size, size, ...rows.flatMap(({ low, high }) => [low, high])], 0.08, 1e-6);
    const name = `Worse than the winner in ${result.goal.title}`;
    const x = (field: string) => ({
      field,
      type: 'quantitative' as const,
      title: scale.unit === '' ? name : `${name} (${unitName(scale)})`,
      scale: { domain, nice: false, zero: false },
      axis: { format: '~f', tickCount: 8 },
    });
    const y = {
      field: 'setting',
      type: 'nominal' as const,
      title: null,
      scale: { domain: [...labels] },
      axis: { domain: false, ticks: false, labelColor: NEUTRALS.ink.light },
    };
    const { color, shape } = standingScales(settings.map(({ standing }) => standing));
    return {
      $schema: SCHEMA,
      config: chartConfig(),
      width: 760,
      height: 24 * rows.length,
      layer: [
        {
          data: { values: [{ from: -size, to: size }] },
          mark: { type: 'rect', color: NEUTRALS.faint.light },
          encoding: { x: x('from'), x2: { field: 'to' } },
        },
        {
          data: { values: [{}] },
          mark: { type: 'rule', color: NEUTRALS.soft.light, strokeWidth: 1 },
          encoding: { x: { datum: 0, type: 'quantitative' } },
        },
        {
          data: { values: rows },
          mark: { type: 'rule', strokeWidth: 2.2 },
          encoding: { y, x: x('low'), x2: { field: 'high' }, color },
        },
        {
          data: { values: rows },
          mark: { type: 'point', filled: true, size: 80, opacity: 1 },
          encoding: { y, x: x('value'), color, shape },
        },
        {
          data: { values: rows },
          mark: { type: 'text', align: 'left', dx: 8, fontSize: 11.5 },
          encoding: { y, x: x('high'), text: { field: 'share' } },
        },
      ],
    };
  },
  table: (result) => settingsTable(result, rowsOf(result)),
};
