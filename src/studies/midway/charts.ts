import { estimateLine, numberText, SHARE } from '../../wording/numbers.js';
import { counted, listed } from '../../wording/phrases.js';
import type { MidwayResult } from './results.js';
import { finishChart } from '../../report/charts/finish.js';
import { NEUTRALS, STRATEGY_TONES } from '../../report/palette.js';
import type { Chart } from '../../report/charts/chart.js';
import { forest } from '../../report/charts/forest.js';

const LOOKS = [
  { name: 'left', tone: NEUTRALS.line },
  { name: 'used', tone: STRATEGY_TONES[0] },
];

/** What is left of each thing, against what the rest of the campaign takes. */
const supplies: Chart<MidwayResult> = {
  id: 'supplies',
  title: 'What will run short?',
  caption: () =>
    'Bars show what is left, dots the mean number that is still used, lines up to what 90 % of campaigns use at most. Where a line reaches the end of its bar, order.',
  alt: (result) =>
    `One row a supply. ${listed(
      result.supplies.map(
        ({ what, left, used, usedAtMost }) =>
          `${what}: ${numberText(left)} left, ${numberText(used.value)} used on average, ${numberText(usedAtMost)} at most in nine of ten`,
      ),
    )}.`,
  drawing: ({ supplies: all }) => {
    if (all.length === 0) return null;
    const most = Math.max(1, ...all.map(({ left, usedAtMost }) => Math.max(left, usedAtMost)));
    return forest({
      looks: LOOKS,
      legend: { symbol: 'square' },
      step: 42,
      panels: [
        {
          x: { title: 'Number', domain: [0, most * 1.05], isWhole: true },
          rows: all.map(({ what, left, used, usedAtMost }) => ({
            name: `${what}s`,
            items: [
              { look: LOOKS[0].name, bar: [0, left] },
              { look: LOOKS[1].name, low: 0, high: usedAtMost, value: used.value },
            ],
          })),
        },
      ],
    });
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
      counted(left, what),
      numberText(used.value),
      numberText(usedAtMost),
      estimateLine(usedUp, SHARE),
      estimateLine(ends, SHARE),
    ]),
  }),
};

/** Every chart of a campaign under way, in the order of the page. */
export const MIDWAY_CHARTS: readonly Chart<MidwayResult>[] = [finishChart('from now'), supplies];
