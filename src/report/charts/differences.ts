import { isCompletion, measureOf } from '../../study/differences.js';
import { COMPARED, COMPLETIONS } from '../../study/compared-measures.js';
import type { Difference, Estimate, Summary } from '../../study/results.js';
import { measureName } from '../../study/words.js';
import { estimateLine, estimateText, numberText, SHARE, type Scale } from '../format.js';
import { differenceScale } from '../measure-scale.js';
import { NEUTRALS } from '../palette.js';
import { chartConfig } from './config.js';
import { padded, SCHEMA, strategyLabels, strategyScales, type Chart } from './chart.js';
import { listed } from '../text.js';

interface Panel {
  readonly measure: Difference['measure'];
  readonly title: string;
  /** Scale of the absolute difference. */
  readonly absolute: Scale;
}

function panels(summary: Summary): readonly Panel[] {
  // Where every campaign of every strategy is complete, completion tells nothing.
  const isTold = (measure: Difference['measure']) =>
    summary.differences.some((difference) => difference.measure === measure) &&
    !(isCompletion(measure) && summary.strategies.every((strategy) => strategy[measure]?.value === 1));
  return [...COMPLETIONS, ...COMPARED].filter(isTold).map((measure) => ({
    measure,
    title: measureName(measure),
    absolute: differenceScale(measure, summary),
  }));
}

/** The difference in percent of the first strategy's mean, or in its own unit where that would mislead or cannot be. */
function shown(difference: Difference, panel: Panel, summary: Summary): { estimate: Estimate; scale: Scale } {
  const own = { estimate: difference.estimate, scale: panel.absolute };
  const { measure } = panel;
  if (measure === 'silentBadShare' || isCompletion(measure)) return own;
  const mean = summary.strategies[0].measures[measureOf(measure)].value;
  if (!(mean > 0)) return own;
  const { value, low, high } = difference.estimate;
  return { estimate: { value: value / mean, low: low / mean, high: high / mean }, scale: SHARE };
}

export const differences: Chart = {
  id: 'differences',
  title: 'Paired differences',
  caption: (summary) =>
    summary.differences.length === 0
      ? 'There is one strategy only, so nothing to compare.'
      : `Difference from “${summary.strategies[0].name}” with common random numbers, in percent of its mean (completion and undetected bad share in percentage points). ` +
        `The intervals hold together at ${numberText(summary.confidence.level, SHARE)} (joint, by Bonferroni); where one includes zero there is no clear difference. Every panel has its own scale.`,
  alt: (summary) =>
    summary.differences.length === 0
      ? 'No picture: one strategy only.'
      : `Points with intervals about a zero line, one panel a measure. ${listed(
          panels(summary).flatMap((panel) =>
            summary.differences
              .filter((difference) => difference.measure === panel.measure)
              .map((difference) => {
                const { estimate, scale } = shown(difference, panel, summary);
                return `${difference.strategy}, ${panel.title}: ${estimateLine(estimate, scale, true)}`;
              }),
          ),
        )}.`,
  spec: (summary) => {
    if (summary.differences.length === 0) return null;
    const labels = strategyLabels(summary);
    const { color, shape } = strategyScales(summary);
    const compared = labels.slice(1);
    const each = panels(summary).map((panel, place) => {
      const rows = summary.differences
        .filter((difference) => difference.measure === panel.measure)
        .map((difference) => {
          const { estimate, scale } = shown(difference, panel, summary);
          const at = summary.strategies.findIndex((strategy) => strategy.name === difference.strategy);
          return {
            strategy: labels[at],
            value: estimate.value / scale.divisor,
            low: estimate.low / scale.divisor,
            high: estimate.high / scale.divisor,
            label: estimateText(estimate, scale, true).value,
            unit: scale.unit,
          };
        });
      const unit = rows[0].unit;
      const domain = padded([0, ...rows.flatMap((row) => [row.low, row.high])], 0.2, unit === '' ? 1 : 0.1);
      const x = (field: string) => ({
        field,
        type: 'quantitative' as const,
        title: unit === '' ? panel.title : unit,
        scale: { domain, nice: false },
        axis: { tickCount: 3, format: '~f' },
      });
      const strategy = { field: 'strategy', type: 'nominal' as const };
      const y = {
        ...strategy,
        title: null,
        scale: { domain: [...compared] },
        axis: place % 3 === 0 ? { domain: false, ticks: false, labelColor: NEUTRALS.ink.light } : null,
      };
      return {
        title: { text: panel.title, frame: 'group' as const },
        width: 214,
        height: 46 * compared.length,
        data: { values: rows },
        layer: [
          {
            mark: { type: 'rule' as const, color: NEUTRALS.soft.light, strokeWidth: 1 },
            encoding: { x: { datum: 0, type: 'quantitative' as const } },
          },
          {
            mark: { type: 'rule' as const, strokeWidth: 2.4 },
            encoding: { y, x: x('low'), x2: { field: 'high' }, color: { ...strategy, scale: color, legend: null } },
          },
          {
            mark: { type: 'point' as const, filled: true, size: 80, opacity: 1 },
            encoding: {
              y,
              x: x('value'),
              color: { ...strategy, scale: color, legend: null },
              shape: { ...strategy, scale: shape, legend: null },
            },
          },
          {
            mark: {
              type: 'text' as const,
              dy: -12,
              fontSize: 11.5,
              stroke: NEUTRALS.paper.light,
              strokeWidth: 4,
              strokeJoin: 'round' as const,
            },
            encoding: { y, x: x('value'), text: { field: 'label' } },
          },
          {
            mark: { type: 'text' as const, dy: -12, fontSize: 11.5 },
            encoding: { y, x: x('value'), text: { field: 'label' } },
          },
        ],
      };
    });
    return {
      $schema: SCHEMA,
      config: { ...chartConfig(), concat: { spacing: 26 } },
      concat: each,
      columns: 3,
      align: 'each',
    };
  },
  table: (summary) => ({
    columns: [
      { label: 'Strategy' },
      { label: 'Measure' },
      { label: 'Difference', numeric: true },
      { label: 'Of the first’s mean', numeric: true },
      { label: 'Verdict' },
    ],
    rows: panels(summary).flatMap((panel) =>
      summary.differences
        .filter((difference) => difference.measure === panel.measure)
        .map((difference) => {
          const relative = shown(difference, panel, summary);
          return [
            difference.strategy,
            panel.title,
            estimateLine(difference.estimate, panel.absolute, true),
            relative.scale === SHARE ? estimateLine(relative.estimate, SHARE, true) : '',
            difference.verdict,
          ];
        }),
    ),
  }),
};
