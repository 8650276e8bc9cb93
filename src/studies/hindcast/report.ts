import { type Chart, looksOf } from '../../report/charts/chart.js';
import { curves } from '../../report/charts/curves.js';
import { forest } from '../../report/charts/forest.js';
import { csv } from '../../report/csv.js';
import { planFacts } from '../../report/page.js';
import { answerReport } from '../../report/report.js';
import { htmlTable, type Table } from '../../report/table.js';
import { plainText, uniqueLabels } from '../../report/text.js';
import { numberText, percentText } from '../../wording/numbers.js';
import { capital, counted, listed } from '../../wording/phrases.js';
import { type Calibration, type Hindcast, type Placed, RECORDED, type Recorded } from './results.js';
import { NAMES, valueText } from './words.js';

const [PREDICTED, FOUND] = ['predicted, middle 95 %', 'found'];
const EXPECTED = 'where the scenario is right';

/** Units of the chart's axes, as a divisor of what is stored. */
const UNITS: Readonly<Record<Recorded, { readonly divisor: number; readonly unit: string }>> = {
  time: { divisor: 3600, unit: ' (h)' },
  operatorTime: { divisor: 3600, unit: ' (h)' },
  tips: { divisor: 1, unit: '' },
  attempts: { divisor: 1, unit: '' },
  yield: { divisor: 0.01, unit: ' (%)' },
};

const placedChart: Chart<Hindcast> = {
  id: 'placed',
  title: 'Predicted and found',
  caption: ({ replications }) =>
    `What was found in each campaign, and the middle 95 % of what the scenario predicts for it with its median, ${numberText(replications)} draws of all that is uncertain.`,
  alt: ({ placed }) =>
    `Points with intervals. ${listed(placed.slice(0, 3).map(({ campaign, measure, share }) => `${campaign}, ${NAMES[measure]}: above ${percentText(share)}`))}.`,
  drawing: ({ placed }) => {
    const names = uniqueLabels([...new Set(placed.map(({ campaign }) => campaign))], 26);
    const campaigns = [...new Set(placed.map(({ campaign }) => campaign))];
    return forest({
      looks: looksOf([PREDICTED, FOUND]),
      legend: {},
      step: 26,
      columns: 2,
      panels: RECORDED.filter((measure) => placed.some((each) => each.measure === measure)).map((measure) => {
        const { divisor, unit } = UNITS[measure];
        const own = placed.filter((each) => each.measure === measure);
        const ends = own.flatMap(({ found, predicted }) => [found, ...predicted.most].map((value) => value / divisor));
        const [least, most] = [Math.min(...ends), Math.max(...ends)];
        const margin = Math.max(0.04 * (most - least), 0.5);
        return {
          x: { title: NAMES[measure] + unit, domain: [Math.max(0, least - margin), most + margin] as const },
          rows: own.map(({ campaign, found, predicted }) => ({
            name: names[campaigns.indexOf(campaign)],
            items: [
              {
                look: PREDICTED,
                value: predicted.median / divisor,
                low: predicted.most[0] / divisor,
                high: predicted.most[1] / divisor,
              },
              { look: FOUND, value: found / divisor },
            ],
          })),
        };
      }),
    });
  },
  table: placedTable,
};

const calibrationChart: Chart<Hindcast> = {
  id: 'calibration',
  title: 'Calibration',
  caption: () =>
    'Shares of the prediction that lie below what was found, from the least to the largest, against what is to be expected of as many. Points along the straight line speak for the scenario; all of them below it, and campaigns come to less than predicted; a steep middle, and predictions are too narrow. Campaigns that share unmeasured values may all lie on one side even where the scenario is right; p takes that into account.',
  alt: ({ calibration }) =>
    `Lines beside a diagonal. ${listed(calibration.flatMap(({ measure, test }) => (test === null ? [] : [`${NAMES[measure]}: largest distance ${numberText(test.distance)}`])))}.`,
  drawing: ({ placed, calibration }) => {
    const tested = calibration.filter(({ test }) => test !== null);
    if (tested.length === 0) return null;
    const looks = looksOf([FOUND, EXPECTED]);
    return curves({
      looks,
      x: { title: 'Share to be expected', domain: [0, 1] },
      columns: 2,
      height: 210,
      panels: tested.map(({ measure }) => ({
        y: { title: `${NAMES[measure]}: share below`, domain: [0, 1] },
        points: [
          ...sharesOf(placed, measure).map(([x, value]) => ({ look: FOUND, x, value, low: value, high: value })),
          ...[0, 1].map((value) => ({ look: EXPECTED, x: value, value, low: value, high: value })),
        ],
      })),
    });
  },
  table: ({ calibration }) => calibrationTable(calibration),
};

/** Shares in order, each with what is to be expected of it: (i − ½) / n. */
function sharesOf(placed: readonly Placed[], measure: Recorded): readonly (readonly [number, number])[] {
  const shares = placed.filter((each) => each.measure === measure).map(({ share }) => share);
  return shares.toSorted((a, b) => a - b).map((share, i) => [(i + 0.5) / shares.length, share]);
}

function placedTable({ placed }: Pick<Hindcast, 'placed'>): Table {
  return {
    columns: [
      { label: 'Campaign' },
      { label: 'Strategy' },
      { label: 'Measure' },
      { label: 'Found', numeric: true },
      { label: 'Predicted median', numeric: true },
      { label: 'Middle 50 %', numeric: true },
      { label: 'Middle 95 %', numeric: true },
      { label: 'Predicted below', numeric: true },
    ],
    rows: placed.map(({ campaign, strategy, measure, found, predicted: { median, half, most }, share }) => {
      const text = (value: number) => valueText(measure, value);
      const span = ([low, high]: readonly [number, number]) => `${text(low)} to ${text(high)}`;
      const cells = [text(found), text(median), span(half), span(most), percentText(share)];
      return [campaign, strategy, NAMES[measure], ...cells];
    }),
  };
}

function calibrationTable(calibration: readonly Calibration[]): Table {
  return {
    columns: [
      { label: 'Measure' },
      { label: 'Campaigns', numeric: true },
      { label: 'In the middle 50 %', numeric: true },
      { label: 'In the middle 95 %', numeric: true },
      { label: 'Largest distance', numeric: true },
      { label: 'p', numeric: true },
    ],
    rows: calibration.map(({ measure, campaigns, inHalf, inMost, test }) => [
      NAMES[measure],
      numberText(campaigns),
      numberText(inHalf),
      numberText(inMost),
      test === null ? '' : numberText(test.distance),
      test === null ? '' : numberText(test.pValue),
    ]),
  };
}

/** `hindcast.csv`: a row a campaign and measure, in seconds and shares. */
function hindcastCsv({ placed }: Hindcast): string {
  return csv([
    ['campaign', 'strategy', 'measure', 'found', 'median', 'low 50 %', 'high 50 %', 'low 95 %', 'high 95 %', 'share'],
    ...placed.map(({ campaign, strategy, measure, found, predicted: { median, half, most }, share }) => [
      ...[plainText(campaign), plainText(strategy), NAMES[measure]],
      ...[found, median, ...half, ...most, share],
    ]),
  ]);
}

/** Rows of the terminal's table. */
const MOST_ROWS = 15;

export const hindcastReport = answerReport<Hindcast>({
  files: { 'hindcast.csv': hindcastCsv },
  charts: () => [placedChart, calibrationChart],
  shown: (result) => {
    const run = counted(result.replications, 'draw');
    const { columns, rows } = placedTable(result);
    const short = {
      columns: columns.filter((_, i) => SHORT.includes(i)),
      rows: rows.map((row) => row.filter((_, i) => SHORT.includes(i))),
    };
    return {
      kicker: 'Finished campaigns in what the scenario predicts for them',
      facts: planFacts(result.scenario, null),
      answer: result.answer,
      warnings: result.warnings,
      run,
      terminal: {
        run,
        tables: () => [
          {
            title: 'Where each campaign lies in its prediction',
            table: { ...short, rows: short.rows.slice(0, MOST_ROWS) },
          },
        ],
      },
      below: [htmlTable(placedTable(result), 'Where each campaign lies in its prediction')],
      intro:
        'The scenario is run as it stands, but for what is uncertain or only assumed, which each draw has anew; that is what one would have predicted. What was found is put beside it.',
      method: [
        [
          'Replications',
          `${run} of all that is uncertain. Each has one campaign of every strategy followed; where five or more campaigns are tested, as many as those. ${capital(result.stopping)}`,
        ],
        [
          'Uncertain',
          'values with an uncertainty as it is declared; others that are only assumed so that the range holds the middle 95 % of a normal, of logarithms for amounts',
        ],
        [
          'Calibration',
          'shares of the prediction below what was found are uniform where the scenario is right (A. P. Dawid, J. R. Stat. Soc. A 147, 278, 1984); counts have half of what equals them. From five campaigns on, their largest distance from uniform shares (Kolmogorov’s) is compared with that of as many simulated campaigns that share the values of one draw, as campaigns of one laboratory do; p is the share of draws with a distance at least as large, the campaigns found counted as one',
        ],
        ['Yield', 'the apparent one, as nobody knows which images went undetected'],
      ],
      rest: 'All numbers are in `summary.json` and `hindcast.csv`',
    };
  },
});

/** Columns that the terminal shows. */
const SHORT: readonly number[] = [0, 2, 3, 6, 7];
