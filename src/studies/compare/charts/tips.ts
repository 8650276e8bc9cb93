import { estimateLine, numberText, PLAIN, SHARE } from '../../../wording/numbers.js';
import { listed } from '../../../wording/phrases.js';
import type { StrategySummary, Summary } from '../../../analysis/results.js';
import { type Chart, strategyLooks } from '../../../report/charts/chart.js';
import { type Bin, histogram } from '../../../report/charts/histogram.js';

/** Bars across the picture at most; wider ranges are shown in bins of several tips. */
const MOST_BARS = 45;

function range(summary: Summary): { low: number; width: number } {
  const counts = summary.strategies.flatMap((strategy) => strategy.tipCounts.map((each) => each.tips));
  const least = Math.min(...(counts.length === 0 ? [0] : counts));
  const high = Math.max(...(counts.length === 0 ? [0] : counts));
  const needed = (high - least + 1) / MOST_BARS;
  const width = [1, 2, 3, 5, 10, 15, 20, 25, 50, 100, 200, 500].find((each) => each >= needed) ?? Math.ceil(needed);
  return { low: Math.floor(least / width) * width, width };
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
  title: 'How many tips are used?',
  caption: (summary) => {
    const { width } = range(summary);
    const both = new Set(summary.strategies.map((strategy) => strategy.workflow)).size > 1;
    return (
      `Share of replications by number of tips used${width > 1 ? `, in bins of ${String(width)}` : ''}; the vertical line is the mean.` +
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
  drawing: (summary) => {
    const { low, width } = range(summary);
    const looks = strategyLooks(summary);
    return histogram({
      title: 'Tips used',
      series: summary.strategies.map((strategy, place) => ({
        look: looks[place],
        bins: bins(strategy, low, width),
        mean: strategy.measures.tips.value,
      })),
    });
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
