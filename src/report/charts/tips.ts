import type { StrategySummary, Summary } from '../../study/results.js';
import { estimateLine, numberText, PLAIN, SHARE } from '../format.js';
import { NEUTRALS } from '../palette.js';
import { chartConfig } from './config.js';
import { SCHEMA, strategyLabels, strategyScales, WIDTH, type Chart } from './chart.js';
import { listed } from '../text.js';

/** Bars across the picture at most; wider ranges are shown in bins of several tips. */
const MOST_BARS = 45;

interface Bin {
  readonly from: number;
  readonly to: number;
  readonly share: number;
}

function range(summary: Summary): { low: number; high: number; width: number } {
  const counts = summary.strategies.flatMap((strategy) => strategy.tipCounts.map((each) => each.tips));
  const low = Math.min(...(counts.length === 0 ? [0] : counts));
  const high = Math.max(...(counts.length === 0 ? [0] : counts));
  return { low, high, width: Math.max(1, Math.ceil((high - low + 1) / MOST_BARS)) };
}

function bins(strategy: StrategySummary, low: number, width: number): Bin[] {
  const shares = new Map<number, number>();
  for (const { tips, share } of strategy.tipCounts) {
    const from = low + Math.floor((tips - low) / width) * width;
    shares.set(from, (shares.get(from) ?? 0) + share);
  }
  return [...shares].sort(([a], [b]) => a - b).map(([from, share]) => ({ from, to: from + width - 1, share }));
}

export const tips: Chart = {
  id: 'tips',
  title: 'How many tips go?',
  caption: (summary) => {
    const { width } = range(summary);
    const both = new Set(summary.strategies.map((strategy) => strategy.workflow)).size > 1;
    return (
      `Share of replications by number of tips used${width > 1 ? `, in bins of ${String(width)}` : ''}; the upright is the mean.` +
      (both ? ' A site of a chip and a probe that is bought one by one are unlike things: see the cost beside the count.' : '')
    );
  },
  alt: (summary) =>
    `A histogram for each strategy. ${listed(
      summary.strategies.map((strategy) => `${strategy.name} uses ${estimateLine(strategy.measures.tips, PLAIN)} tips on average`),
    )}.`,
  spec: (summary) => {
    const { low, high, width } = range(summary);
    const labels = [...strategyLabels(summary)];
    const { color } = strategyScales(summary);
    const values = summary.strategies.flatMap((strategy, place) => [
      ...bins(strategy, low, width).map((bin) => ({
        strategy: labels[place],
        from: bin.from - 0.46 * Math.min(1, width),
        to: bin.to + 0.46 * Math.min(1, width),
        share: bin.share,
      })),
      { strategy: labels[place], mean: strategy.measures.tips.value },
    ]);
    const domain = { domain: [low - 1, high + 1], nice: false, zero: false };
    const height = labels.length > 4 ? 46 : 74;
    return {
      $schema: SCHEMA,
      config: { ...chartConfig(), facet: { spacing: 10 } },
      data: { values },
      facet: {
        row: {
          field: 'strategy',
          type: 'nominal',
          sort: labels,
          header: { title: null, labelAngle: 0, labelAlign: 'left', labelAnchor: 'middle', labelOrient: 'left', labelPadding: 4 },
        },
      },
      spec: {
        width: WIDTH - 240,
        height,
        layer: [
          {
            mark: { type: 'bar' },
            encoding: {
              x: { field: 'from', type: 'quantitative', title: 'Tips used', scale: domain, axis: { tickMinStep: 1, grid: false, format: 'd' } },
              x2: { field: 'to' },
              y: { field: 'share', type: 'quantitative', title: null, axis: { format: '.0%', tickCount: 2 } },
              y2: { datum: 0 },
              color: { field: 'strategy', type: 'nominal', scale: color, legend: null },
            },
          },
          {
            mark: { type: 'rule', color: NEUTRALS.ink.light, strokeWidth: 1.6 },
            encoding: { x: { field: 'mean', type: 'quantitative', scale: domain } },
          },
        ],
      },
    };
  },
  table: (summary) => {
    const { low, width } = range(summary);
    return {
      columns: [
        { label: 'Strategy' },
        { label: 'Tips used', numeric: true },
        { label: 'Share of replications', numeric: true },
      ],
      rows: summary.strategies.flatMap((strategy) => [
        [strategy.name, `mean ${estimateLine(strategy.measures.tips, PLAIN)}`, ''],
        ...bins(strategy, low, width).map((bin) => [
          strategy.name,
          bin.to > bin.from ? `${String(bin.from)} to ${String(bin.to)}` : String(bin.from),
          numberText(bin.share, SHARE),
        ]),
      ]),
    };
  },
};
