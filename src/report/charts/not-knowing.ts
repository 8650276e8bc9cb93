import type { NotKnowing, Span } from '../../study/not-knowing/results.js';
import { COMPARED, type ComparedMeasure } from '../../study/compared-measures.js';
import type { Summary } from '../../study/results.js';
import { measureName } from '../../study/words.js';
import { estimateText, numberText, type Scale, SHARE, signedText, withUnit } from '../format.js';
import { differenceScale, measureScale } from '../measure-scale.js';
import { NEUTRALS } from '../palette.js';
import { listed } from '../text.js';
import { type Chart, padded, SCHEMA, strategyLabels, strategyScales } from './chart.js';
import { chartConfig } from './config.js';

/** A comparison in which luck and not-knowing are told apart. */
export type Known = Summary & { readonly notKnowing: NotKnowing };

const WITHOUT = 'luck alone';
const WITH = 'with not knowing';
const PANEL = 214;
/** Panels side by side. */
const ACROSS = 3;
const ROW = 44;

/** A span with its unit, such as `6.5 to 11.1 h`; `none seen` where it has no width. */
export function spanText({ low, high }: Span, scale: Scale, signed = false): string {
  const { interval } = estimateText({ value: (low + high) / 2, low, high }, scale, signed);
  return interval === '' ? 'none seen' : withUnit(interval, scale);
}

interface Row {
  readonly strategy: string;
  readonly kind: string;
  readonly low: number;
  readonly high: number;
  readonly value: number;
}

/** Both spans of one strategy, in the unit of its panel. */
function rowsOf(strategy: string, scale: Scale, value: number, without: Span, within: Span): readonly Row[] {
  return [
    { kind: WITHOUT, ...without },
    { kind: WITH, ...within },
  ].map(({ kind, low, high }) => ({
    strategy,
    kind,
    low: low / scale.divisor,
    high: high / scale.divisor,
    value: value / scale.divisor,
  }));
}

function campaignRows(known: Known, measure: ComparedMeasure): readonly Row[] {
  const labels = strategyLabels(known);
  return known.notKnowing.strategies
    .filter((each) => each.measure === measure)
    .flatMap(({ atValues, luckAlone, luckAndNotKnowing }, place) =>
      rowsOf(labels[place], measureScale(measure, known), atValues, luckAlone, luckAndNotKnowing),
    );
}

function differenceRows(known: Known, measure: ComparedMeasure): readonly Row[] {
  const labels = strategyLabels(known).slice(1);
  return known.notKnowing.differences
    .filter((each) => each.measure === measure)
    .flatMap(({ atValues, notKnowing }, place) =>
      rowsOf(labels[place], differenceScale(measure, known), atValues.value, atValues, notKnowing),
    );
}

/** One measure: two lines a strategy, solid without and dashed with what is not known, and a point for the mean. */
function panel(
  known: Known,
  measure: ComparedMeasure,
  place: number,
  rows: readonly Row[],
  scale: Scale,
  isDifference: boolean,
) {
  const { color } = strategyScales(known);
  const names = [...new Set(rows.map(({ strategy }) => strategy))];
  const ends = rows.flatMap(({ low, high, value }) => [low, high, value]);
  const strategy = { field: 'strategy', type: 'nominal' as const };
  const x = (field: string) => ({
    field,
    type: 'quantitative' as const,
    title: scale.unit === '' ? measureName(measure) : scale.unit,
    scale: { domain: padded(isDifference ? [0, ...ends] : ends, 0.08, 1e-3), nice: false },
    axis: { tickCount: 3, format: '~f' },
  });
  const y = {
    ...strategy,
    title: null,
    scale: { domain: names },
    axis: place % ACROSS === 0 ? { domain: false, ticks: false, labelColor: NEUTRALS.ink.light } : null,
  };
  const yOffset = { field: 'kind', type: 'nominal' as const, scale: { domain: [WITHOUT, WITH], paddingOuter: 0.6 } };
  return {
    title: { text: measureName(measure), frame: 'group' as const },
    width: PANEL,
    height: ROW * names.length,
    data: { values: [...rows] },
    layer: [
      ...(isDifference
        ? [
            {
              mark: { type: 'rule' as const, color: NEUTRALS.soft.light, strokeWidth: 1 },
              encoding: { x: { datum: 0, type: 'quantitative' as const } },
            },
          ]
        : []),
      {
        mark: { type: 'rule' as const, strokeWidth: 2.6 },
        encoding: {
          y,
          yOffset,
          x: x('low'),
          x2: { field: 'high' },
          color: { ...strategy, scale: color, legend: null },
          strokeDash: {
            field: 'kind',
            type: 'nominal' as const,
            scale: {
              domain: [WITHOUT, WITH],
              range: [
                [1, 0],
                [5, 3],
              ],
            },
            legend: { title: null, orient: 'bottom' as const, symbolStrokeColor: NEUTRALS.ink.light, symbolSize: 400 },
          },
        },
      },
      {
        transform: [{ filter: `datum.kind === '${WITHOUT}'` }],
        mark: { type: 'point' as const, filled: true, size: 46, opacity: 1 },
        encoding: { y, yOffset, x: x('value'), color: { ...strategy, scale: color, legend: null } },
      },
    ],
  };
}

export const notKnowing: Chart<Known> = {
  id: 'not-knowing',
  title: 'Luck and not-knowing apart',
  caption: (known) =>
    'Above, the middle 95 % of single campaigns: solid by luck alone, at the scenario’s values; dashed with what is not known drawn too. ' +
    (known.differences.length === 0
      ? 'More campaigns narrow neither; more log narrows the dashed one towards the solid one.'
      : `Below, the expected difference from “${known.strategies[0].name}”: solid what the simulation leaves open at the scenario’s values, dashed what not knowing them does. More replications narrow the solid line, a longer log the dashed one.`),
  alt: (known) =>
    `Pairs of lines, one panel a measure. ${listed(
      known.notKnowing.strategies
        .filter(({ measure }) => measure === 'time')
        .map(
          ({ strategy, luckAlone, luckAndNotKnowing }) =>
            `${strategy}, one campaign: ${spanText(luckAlone, measureScale('time', known))} by luck alone, ${spanText(luckAndNotKnowing, measureScale('time', known))} with not knowing`,
        ),
    )}.`,
  spec: (known) => {
    const row = (title: string, rowsIn: typeof campaignRows, scaleOf: typeof measureScale, isDifference: boolean) => ({
      title: { text: title, frame: 'group' as const, fontWeight: 'normal' as const, color: NEUTRALS.soft.light },
      spacing: 22,
      columns: ACROSS,
      concat: COMPARED.map((measure, place) =>
        panel(known, measure, place, rowsIn(known, measure), scaleOf(measure, known), isDifference),
      ),
    });
    return {
      $schema: SCHEMA,
      config: chartConfig(),
      spacing: 26,
      vconcat: [
        row('One campaign', campaignRows, measureScale, false),
        ...(known.differences.length === 0
          ? []
          : [row(`Expected difference from ${strategyLabels(known)[0]}`, differenceRows, differenceScale, true)]),
      ],
    };
  },
  table: (known) => ({
    columns: [
      { label: 'Strategy' },
      { label: 'Measure' },
      { label: 'Mean', numeric: true },
      { label: 'One campaign, luck alone', numeric: true },
      { label: 'One campaign, with not knowing', numeric: true },
      { label: 'Mean, with not knowing', numeric: true },
      { label: 'Of the variance, not knowing', numeric: true },
    ],
    rows: [
      ...known.notKnowing.strategies.map((each) => {
        const scale = measureScale(each.measure, known);
        return [
          each.strategy,
          measureName(each.measure),
          numberText(each.atValues, scale),
          spanText(each.luckAlone, scale),
          spanText(each.luckAndNotKnowing, scale),
          spanText(each.notKnowing, scale),
          shareText(each.variance),
        ];
      }),
      ...known.notKnowing.differences.map((each) => {
        const scale = differenceScale(each.measure, known);
        return [
          `${each.strategy}, difference`,
          measureName(each.measure),
          signedText(each.atValues.value, scale),
          '',
          '',
          spanText(each.notKnowing, scale, true),
          shareText(each.variance),
        ];
      }),
    ],
  }),
};

function shareText({ luck, notKnowing: unknown }: { readonly luck: number; readonly notKnowing: number }): string {
  return luck + unknown > 0 ? numberText(unknown / (luck + unknown), SHARE) : '';
}
