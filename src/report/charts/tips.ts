import type { StrategySummary, Summary } from '../../study/results.js';
import { estimateLine, numberText, PLAIN, SHARE } from '../format.js';
import { NEUTRALS } from '../palette.js';
import { chartConfig } from './config.js';
import { SCHEMA, strategyLabels, strategyScales, WIDTH, type Chart } from './chart.js';
import { nameRoom, rowName } from './row-names.js';
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
  const least = Math.min(...(counts.length === 0 ? [0] : counts));
  const high = Math.max(...(counts.length === 0 ? [0] : counts));
  const needed = (high - least + 1) / MOST_BARS;
  const width = [1, 2, 3, 5, 10, 15, 20, 25, 50, 100, 200, 500].find((each) => each >= needed) ?? Math.ceil(needed);
  return { low: Math.floor(least / width) * width, high, width };
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
      (both
        ? ' A site of a chip and a probe that is bought one by one are unlike things: see the cost beside the count.'
        : '')
    );
  },
  alt: (summary) =>
    `A histogram for each strategy. ${listed(
      summary.strategies.map(
        (strategy) => `${strategy.name} uses ${estimateLine(strategy.measures.tips, PLAIN)} tips on average`,
      ),
    )}.`,
  spec: (summary) => {
    const { low, high, width } = range(summary);
    const labels = [...strategyLabels(summary)];
    const { color } = strategyScales(summary);
    const domain = { domain: [low - 1, high + width], nice: false, zero: false };
    const tallest = Math.max(
      ...summary.strategies.flatMap((strategy) => bins(strategy, low, width).map((bin) => bin.share)),
      0.01,
    );
    const height = labels.length > 4 ? 46 : 74;
    const last = labels.length - 1;
    return {
      $schema: SCHEMA,
      config: { ...chartConfig(), concat: { spacing: 12 } },
      align: 'each',
      columns: 1,
      concat: summary.strategies.map((strategy, place) => ({
        width: WIDTH - nameRoom(labels) - 60,
        height,
        layer: [
          rowName(labels[place], 48, height),
          {
            data: {
              values: bins(strategy, low, width).map((bin) => ({
                from: bin.from - 0.46,
                to: bin.to + 0.46,
                share: bin.share,
              })),
            },
            mark: { type: 'bar' as const, color: color.range[place] },
            encoding: {
              x: {
                field: 'from',
                type: 'quantitative' as const,
                title: place === last ? 'Tips used' : null,
                scale: domain,
                axis: { tickMinStep: 1, tickCount: 12, grid: false, format: '~f', labels: place === last },
              },
              x2: { field: 'to' },
              y: {
                field: 'share',
                type: 'quantitative' as const,
                title: null,
                scale: { domain: [0, tallest * 1.05], nice: false },
                axis: { format: '.0%', tickCount: 2 },
              },
              y2: { datum: 0 },
            },
          },
          {
            data: { values: [{ mean: strategy.measures.tips.value }] },
            mark: { type: 'rule' as const, color: NEUTRALS.paper.light, strokeWidth: 4 },
            encoding: { x: { field: 'mean', type: 'quantitative' as const, scale: domain } },
          },
          {
            data: { values: [{ mean: strategy.measures.tips.value }] },
            mark: { type: 'rule' as const, color: NEUTRALS.ink.light, strokeWidth: 1.6 },
            encoding: { x: { field: 'mean', type: 'quantitative' as const, scale: domain } },
          },
        ],
      })),
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
