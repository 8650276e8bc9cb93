import type { MidwayResult } from '../../study/midway/results.js';
import { finishChart } from '../charts/finish.js';
import { type Chart, SCHEMA, WIDTH } from '../charts/chart.js';
import { chartConfig } from '../charts/config.js';
import { estimateLine, numberText, SHARE } from '../format.js';
import { NEUTRALS, STRATEGY_TONES } from '../palette.js';
import { listed } from '../text.js';
import { countedThings } from './words.js';

/** What is left of each thing, against what the rest of the campaign takes. */
const supplies: Chart<MidwayResult> = {
  id: 'supplies',
  title: 'What will run short?',
  caption: () =>
    'Bars show what is left, dots the mean number that is still used, lines up to what nine in ten campaigns use at most. Where a line reaches the end of its bar, order.',
  alt: (result) =>
    `One row a supply. ${listed(
      result.supplies.map(
        ({ what, left, used, usedAtMost }) =>
          `${what}: ${numberText(left)} left, ${numberText(used.value)} used on average, ${numberText(usedAtMost)} at most in nine of ten`,
      ),
    )}.`,
  spec: (result) => {
    if (result.supplies.length === 0) return null;
    const values = result.supplies.map(({ what, left, used, usedAtMost }) => ({
      what: `${what}s`,
      left,
      used: used.value,
      most: usedAtMost,
      none: 0,
    }));
    const y = { field: 'what', type: 'nominal' as const, title: null, sort: values.map(({ what }) => what) };
    const most = Math.max(1, ...values.map(({ left, most: needed }) => Math.max(left, needed)));
    const x = {
      type: 'quantitative' as const,
      title: 'Number',
      scale: { domain: [0, most * 1.05], nice: false },
      axis: { format: '~f', tickMinStep: 1 },
    };
    const tone = STRATEGY_TONES[0].light;
    return {
      $schema: SCHEMA,
      config: chartConfig(),
      width: WIDTH - 110,
      height: { step: 42 },
      data: { values },
      layer: [
        {
          mark: { type: 'bar', height: 20, color: NEUTRALS.line.light },
          encoding: { y, x: { field: 'left', ...x } },
        },
        {
          mark: { type: 'rule', strokeWidth: 3, color: tone },
          encoding: { y, x: { field: 'none', ...x }, x2: { field: 'most' } },
        },
        {
          mark: { type: 'point', filled: true, size: 90, opacity: 1, color: tone },
          encoding: { y, x: { field: 'used', ...x } },
        },
      ],
    };
  },
  table: (result) => ({
    columns: [
      { label: 'Supply' },
      { label: 'Left', numeric: true },
      { label: 'Used, mean', numeric: true },
      { label: 'Used at most in nine of ten', numeric: true },
      { label: 'All used', numeric: true },
      { label: 'Work ends for want', numeric: true },
    ],
    rows: result.supplies.map(({ what, left, used, usedAtMost, usedUp, ends }) => [
      `${what}s`,
      countedThings(left, what),
      numberText(used.value),
      numberText(usedAtMost),
      estimateLine(usedUp, SHARE),
      estimateLine(ends, SHARE),
    ]),
  }),
};

/** Every chart of a campaign under way, in the order of the page. */
export const MIDWAY_CHARTS: readonly Chart<MidwayResult>[] = [finishChart('from now'), supplies];
