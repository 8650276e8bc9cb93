import { estimateLine, numberText, type Scale, SHARE, unitName, workScale } from '../../wording/numbers.js';
import { counted, listed } from '../../wording/phrases.js';
import type { BudgetResult, BudgetStrategy, Within } from './results.js';
import { CHANCES } from './results.js';
import { PERCENT } from '../../report/charts/axes.js';
import { type Chart, strategyLooks } from '../../report/charts/chart.js';
import { forest } from '../../report/charts/forest.js';
import { curves } from '../../report/charts/curves.js';
import { grantedText, hoursText, quantileCell, timeAsked } from './words.js';

/** Unit of the times of a picture. */
function scaleOf({ strategies }: BudgetResult): Scale {
  return workScale(Math.max(...strategies.flatMap(({ curve }) => curve.map(({ time }) => time)), 1));
}

/** What a curve shows of a time, in words and as a number. */
interface Panel {
  readonly title: string;
  readonly of: (within: Within) => Within['yield'];
}
const PANELS: readonly Panel[] = [
  { title: 'Probability of completion', of: ({ finished }) => finished },
  { title: 'Share of images measured', of: ({ measured }) => measured },
  { title: 'Yield', of: ({ yield: gained }) => gained },
];

function timeTitle(result: BudgetResult, scale: Scale): string {
  const what = result.hasBookings ? 'Booked time' : 'Time since the start';
  return `${what} (${unitName(scale)})`;
}

/** What more and more time buys. */
const granted: Chart<BudgetResult> = {
  id: 'granted',
  title: 'What does more time buy?',
  caption: (result) =>
    `Probability of completion, share of the images measured and yield when the work stops at the end of ${result.hasBookings ? 'so many booked hours' : 'so much time'}; bands are ${numberText(result.level, SHARE)} intervals. Where the curves flatten, more time buys nothing.`,
  alt: (result) =>
    `Three panels of rising curves, one line a strategy. ${listed(
      result.strategies.map(({ name, curve }) => {
        const last = curve.at(-1);
        return last === undefined
          ? `${name} has no curve`
          : `${name} is finished after ${grantedText(last)} with a chance of ${numberText(last.finished.value, SHARE)}`;
      }),
    )}.`,
  drawing: (result) => {
    if (result.strategies.every(({ curve }) => curve.length === 0)) return null;
    const scale = scaleOf(result);
    const looks = strategyLooks(result);
    const ends = result.strategies.flatMap(({ curve }) => curve.map(({ time }) => time / scale.divisor));
    return curves({
      looks,
      x: { title: timeTitle(result, scale), domain: [Math.min(...ends), Math.max(...ends)], time: scale },
      height: 130,
      panels: PANELS.map(({ title, of }) => ({
        y: { title, domain: [0, 1], format: PERCENT },
        points: result.strategies.flatMap((strategy, place) =>
          strategy.curve.map((within) => ({
            look: looks[place].name,
            x: within.time / scale.divisor,
            ...of(within),
          })),
        ),
      })),
    });
  },
  table: (result) => ({
    columns: [
      { label: 'Strategy' },
      { label: 'Time', numeric: true },
      ...PANELS.map(({ title }) => ({ label: title, numeric: true })),
    ],
    rows: result.strategies.flatMap(({ name, curve }) =>
      curve.map((within) => [name, grantedText(within), ...PANELS.map(({ of }) => estimateLine(of(within), SHARE))]),
    ),
  }),
};

/** The time to ask for by the chance that it suffices. */
const hoursToAsk: Chart<BudgetResult> = {
  id: 'hours-to-ask',
  title: 'How much time for which chance?',
  caption: (result) =>
    `Time that a share of the campaigns needs no more than (dot) with its ${numberText(result.level, SHARE)} interval; its right-hand end is what to ask for.`,
  alt: (result) =>
    `Dots with intervals, one row a chance and strategy. ${listed(
      result.strategies.map(
        (strategy) => `${strategy.name}: ${listed(strategy.requests.map((request) => rowText(result, request)))}`,
      ),
    )}.`,
  drawing: (result) => {
    const scale = scaleOf(result);
    const looks = strategyLooks(result);
    const rows = CHANCES.map((chance) => ({
      name: numberText(chance, SHARE),
      items: result.strategies.flatMap(({ requests }, place) =>
        requests.flatMap(({ chance: of, time: { value, low, ask } }) =>
          of !== chance || value === null
            ? []
            : [
                {
                  look: looks[place].name,
                  value: value / scale.divisor,
                  low: (low ?? value) / scale.divisor,
                  high: (ask ?? value) / scale.divisor,
                },
              ],
        ),
      ),
    })).filter(({ items }) => items.length > 0);
    if (rows.length === 0) return null;
    const most = Math.max(...rows.flatMap(({ items }) => items.map(({ high }) => high)));
    return forest({
      looks,
      legend: {},
      step: 16 * (looks.length + 1),
      isSpread: true,
      panels: [
        {
          note: 'Probability of completion',
          x: { title: timeTitle(result, scale), domain: [0, 1.04 * most], time: scale },
          rows,
        },
      ],
    });
  },
  table: (result) => ({
    columns: [
      { label: 'Strategy' },
      { label: 'Chance', numeric: true },
      { label: 'Time to ask for', numeric: true },
      { label: result.hasBookings ? 'Booked time needed' : 'Time needed', numeric: true },
      ...(result.hasBookings ? [{ label: 'Sessions needed', numeric: true }] : []),
    ],
    rows: result.strategies.flatMap(({ name, requests }) =>
      requests.map((request) => [
        name,
        numberText(request.chance, SHARE),
        timeAsked(result, request),
        quantileCell(request.time, hoursText),
        ...(result.hasBookings ? [quantileCell(request.sessions, (count) => counted(count, 'sessions'))] : []),
      ]),
    ),
  }),
};

function rowText(result: BudgetResult, request: BudgetStrategy['requests'][number]): string {
  return `${timeAsked(result, request)} for ${numberText(request.chance, SHARE)}`;
}

/** Every chart of a budget, in the order of the page. */
export const BUDGET_CHARTS: readonly Chart<BudgetResult>[] = [hoursToAsk, granted];
