import type { BudgetResult, BudgetStrategy, Within } from '../../study/budget/results.js';
import { CHANCES } from '../../study/budget/results.js';
import { estimateLine, numberText, SHARE, unitName, workScale, type Scale } from '../format.js';
import { chartConfig } from '../charts/config.js';
import {
  type Chart,
  legendColumns,
  SCHEMA,
  strategyLabels,
  strategyScales,
  strokeLegend,
  WIDTH,
} from '../charts/chart.js';
import { listed } from '../text.js';
import { counted, grantedText, hoursText, quantileCell, timeAsked } from './words.js';

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
  { title: 'Chance to be finished', of: ({ finished }) => finished },
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
    `Chance to be finished, share of the images measured and yield when the work stops at the end of ${result.hasBookings ? 'so many booked hours' : 'so much time'}; bands are ${numberText(result.level, SHARE)} intervals. Where the curves flatten, more time buys nothing.`,
  alt: (result) =>
    `Three panels of rising curves, one line a strategy. ${listed(
      result.strategies.map(({ name, curve }) => {
        const last = curve.at(-1);
        return last === undefined
          ? `${name} has no curve`
          : `${name} is finished after ${grantedText(last)} with a chance of ${numberText(last.finished.value, SHARE)}`;
      }),
    )}.`,
  spec: (result) => {
    if (result.strategies.every(({ curve }) => curve.length === 0)) return null;
    const scale = scaleOf(result);
    const labels = strategyLabels(result);
    const { color, dash } = strategyScales(result);
    const rows = (panel: Panel) =>
      result.strategies.flatMap(({ curve }, place) =>
        curve.map((within) => ({
          strategy: labels[place],
          time: within.time / scale.divisor,
          value: panel.of(within).value,
          low: panel.of(within).low,
          high: panel.of(within).high,
        })),
      );
    const strategy = { field: 'strategy', type: 'nominal' as const };
    return {
      $schema: SCHEMA,
      config: { ...chartConfig(), concat: { spacing: 14 } },
      columns: 1,
      concat: PANELS.map((panel, place) => {
        const last = place === PANELS.length - 1;
        const x = {
          field: 'time',
          type: 'quantitative' as const,
          title: last ? timeTitle(result, scale) : null,
          axis: { grid: false, labels: last, format: '~f', tickCount: 10 },
        };
        const legend = place === 0 ? strokeLegend(labels) : null;
        const y = { scale: { domain: [0, 1] }, axis: { format: '.0%', tickCount: 5 } };
        return {
          width: WIDTH - 70,
          height: 130,
          data: { values: rows(panel) },
          layer: [
            {
              mark: { type: 'area' as const, opacity: 0.16 },
              encoding: {
                x,
                y: { field: 'low', type: 'quantitative' as const, title: panel.title, ...y },
                y2: { field: 'high' },
                color: { ...strategy, scale: color, legend },
              },
            },
            {
              mark: { type: 'line' as const, strokeWidth: 2.2, point: { size: 30 } },
              encoding: {
                x,
                y: { field: 'value', type: 'quantitative' as const, title: panel.title, ...y },
                color: { ...strategy, scale: color, legend },
                strokeDash: { ...strategy, scale: dash, legend },
              },
            },
          ],
        };
      }),
    };
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
  spec: (result) => {
    const scale = scaleOf(result);
    const labels = strategyLabels(result);
    const { color, shape } = strategyScales(result);
    const rows = result.strategies.flatMap((strategy, place) => timeRows(strategy, labels[place], scale));
    if (rows.length === 0) return null;
    const strategy = { field: 'strategy', type: 'nominal' as const };
    const y = { field: 'chance', type: 'nominal' as const, title: 'Chance to be finished', sort: chanceLabels() };
    const offset = { yOffset: { ...strategy, sort: [...labels] } };
    const legend = { title: null, orient: 'top' as const, columns: legendColumns(labels) };
    const x = {
      type: 'quantitative' as const,
      title: timeTitle(result, scale),
      scale: { zero: true },
      axis: { format: '~f', tickCount: 10 },
    };
    return {
      $schema: SCHEMA,
      config: chartConfig(),
      width: WIDTH - 90,
      height: { step: 16 },
      data: { values: rows },
      layer: [
        {
          mark: { type: 'rule', strokeWidth: 3, opacity: 0.45 },
          encoding: {
            y,
            ...offset,
            x: { field: 'low', ...x },
            x2: { field: 'ask' },
            color: { ...strategy, scale: color, legend },
          },
        },
        {
          mark: { type: 'point', filled: true, size: 70, opacity: 1 },
          encoding: {
            y,
            ...offset,
            x: { field: 'value', ...x },
            color: { ...strategy, scale: color, legend },
            shape: { ...strategy, scale: shape, legend },
          },
        },
      ],
    };
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

function chanceLabels(): string[] {
  return CHANCES.map((chance) => numberText(chance, SHARE));
}

function rowText(result: BudgetResult, request: BudgetStrategy['requests'][number]): string {
  return `${timeAsked(result, request)} for ${numberText(request.chance, SHARE)}`;
}

function timeRows(strategy: BudgetStrategy, label: string, scale: Scale) {
  return strategy.requests.flatMap(({ chance, time: { value, low, ask } }) =>
    value === null
      ? []
      : [
          {
            strategy: label,
            chance: numberText(chance, SHARE),
            value: value / scale.divisor,
            low: (low ?? value) / scale.divisor,
            ask: (ask ?? value) / scale.divisor,
          },
        ],
  );
}

/** Every chart of a budget, in the order of the page. */
export const BUDGET_CHARTS: readonly Chart<BudgetResult>[] = [hoursToAsk, granted];
