import type { StrategySummary } from '../../study/results.js';
import { fixed, numberText, SHARE } from '../format.js';
import { QUALITY_TONES } from '../palette.js';
import { chartConfig } from './config.js';
import { SCHEMA, strategyLabels, type Chart } from './chart.js';
import { cells, regionsPerCell } from './regions.js';
import { listed, shortened, uniqueLabels } from '../text.js';

const BOUNDS = [0.5, 0.7, 0.8, 0.9, 0.95];
const CLASSES = ['below 0.5', '0.5 to 0.7', '0.7 to 0.8', '0.8 to 0.9', '0.9 to 0.95', '0.95 to 1'];

function classOf(value: number): string {
  return CLASSES[BOUNDS.filter((bound) => value >= bound).length];
}

function worst(strategy: StrategySummary): string {
  const least = strategy.images.reduce((low, image) => (image.good < low.good ? image : low), strategy.images[0]);
  return `${strategy.name} is worst at region ${String(least.region)}, pass ${least.pass}, good in ${numberText(least.good, SHARE)} of replications`;
}

export const quality: Chart = {
  id: 'quality',
  title: 'Quality, image by image',
  caption: (summary) => {
    const width = regionsPerCell(summary);
    return (
      `Left: mean quality of the kept take (0 where none was kept). Right: share of replications in which the image is good. The more a cell stands out, the worse.` +
      (width > 1 ? ` Each cell is the mean of up to ${String(width)} neighbouring regions.` : '')
    );
  },
  alt: (summary) =>
    `Two maps for each strategy, regions across and passes down. ${listed(
      summary.strategies.filter((strategy) => strategy.images.length > 0).map(worst),
    )}.`,
  spec: (summary) => {
    if (summary.strategies.every((strategy) => strategy.images.length === 0)) return null;
    const width = regionsPerCell(summary);
    const labels = [...strategyLabels(summary)];
    const passes = [...new Set(summary.strategies.flatMap((strategy) => strategy.images.map((image) => image.pass)))];
    const passLabels = uniqueLabels(passes, 16);
    const values = summary.strategies.flatMap((strategy, place) =>
      cells(strategy, width).flatMap((cell) =>
        [
          { measure: 'mean quality', value: cell.quality },
          { measure: 'share good', value: cell.good },
        ].map((each) => ({
          strategy: shortened(labels[place], 22),
          pass: passLabels[passes.indexOf(cell.pass)],
          from: cell.from - 0.5,
          to: cell.to + 0.5,
          measure: each.measure,
          class: classOf(each.value),
        })),
      ),
    );
    const regions = summary.scenario.regions;
    return {
      $schema: SCHEMA,
      config: { ...chartConfig(), facet: { spacing: 14 } },
      data: { values },
      facet: {
        row: {
          field: 'strategy',
          type: 'nominal',
          sort: labels.map((label) => shortened(label, 22)),
          header: { title: null, labelAngle: 0, labelAlign: 'left', labelOrient: 'left', labelPadding: 4 },
        },
        column: {
          field: 'measure',
          type: 'nominal',
          sort: ['mean quality', 'share good'],
          header: { title: null, labelAnchor: 'start' },
        },
      },
      spec: {
        width: 264,
        height: Math.max(16, Math.min(26, 200 / passes.length)) * passes.length,
        mark: { type: 'rect' },
        encoding: {
          x: {
            field: 'from',
            type: 'quantitative',
            title: 'Region',
            scale: { domain: [0.5, regions + 0.5], nice: false, zero: false },
            axis: { grid: false, tickMinStep: 1, format: 'd', tickCount: 6 },
          },
          x2: { field: 'to' },
          y: { field: 'pass', type: 'nominal', title: null, sort: [...passLabels], axis: { domain: false, ticks: false } },
          color: {
            field: 'class',
            type: 'nominal',
            scale: { domain: CLASSES, range: QUALITY_TONES.map((tone) => tone.light) },
            legend: { title: null, orient: 'bottom', symbolType: 'square', symbolStrokeWidth: 0, columns: 6 },
          },
        },
      },
    };
  },
  table: (summary) => {
    const width = regionsPerCell(summary);
    const wider = Math.max(width, Math.ceil((summary.scenario.images * summary.strategies.length) / 240));
    return {
      columns: [
        { label: 'Strategy' },
        { label: 'Pass' },
        { label: wider > 1 ? 'Regions' : 'Region', numeric: true },
        { label: 'Mean quality', numeric: true },
        { label: 'Good', numeric: true },
        { label: 'Silent bad', numeric: true },
        { label: 'Missing', numeric: true },
      ],
      rows: summary.strategies.flatMap((strategy) =>
        cells(strategy, wider).map((cell) => [
          strategy.name,
          cell.pass,
          cell.from === cell.to ? String(cell.from) : `${String(cell.from)} to ${String(cell.to)}`,
          fixed(cell.quality, 3),
          numberText(cell.good, SHARE),
          numberText(cell.silentBad, SHARE),
          numberText(cell.missing, SHARE),
        ]),
      ),
    };
  },
};
