import type { StrategySummary, Summary } from '../../study/results.js';
import { fixed, numberText, SHARE } from '../format.js';
import { QUALITY_TONES } from '../palette.js';
import { chartConfig } from './config.js';
import { SCHEMA, strategyLabels, WIDTH, type Chart } from './chart.js';
import { nameRoom, rowName } from './row-names.js';
import { cells, regionsPerCell } from './regions.js';
import { listed, uniqueLabels } from '../text.js';

const BOUNDS = [0.5, 0.7, 0.8, 0.9, 0.95];
const CLASSES = ['below 0.5', '0.5 to 0.7', '0.7 to 0.8', '0.8 to 0.9', '0.9 to 0.95', '0.95 to 1'];

function classOf(value: number): string {
  return CLASSES[BOUNDS.filter((bound) => value >= bound).length];
}

function worst(strategy: StrategySummary): string {
  const least = strategy.images.reduce((low, image) => (image.good < low.good ? image : low), strategy.images[0]);
  return `${strategy.name} is worst at region ${String(least.region)}, pass ${least.pass}, good in ${numberText(least.good, SHARE)} of replications`;
}

/** What made scans bad, where something drifts; empty else. */
function badScansText({ strategies }: Summary): string {
  const told = strategies.flatMap(({ name, badScans }) =>
    badScans === undefined
      ? []
      : [`${fixed(badScans.byDrift, 2)} of ${fixed(badScans.byDrift + badScans.otherwise, 2)} by ${name}`],
  );
  return told.length === 0 ? '' : ` Bad scans per campaign that drift alone spoiled: ${listed(told)}.`;
}

const DRIFT_COLUMNS = [
  { label: 'q_drift (mean)', numeric: true },
  { label: 'Scans bad by drift alone', numeric: true },
];

export const quality: Chart = {
  id: 'quality',
  title: 'Quality, image by image',
  caption: (summary) => {
    const width = regionsPerCell(summary);
    return (
      `Left: mean quality of the kept take (0 where none was kept). Right: share of replications in which the image is good. The more a cell stands out, the worse.` +
      (width > 1 ? ` Each cell is the mean of up to ${String(width)} neighbouring regions.` : '') +
      badScansText(summary)
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
    const regions = summary.scenario.regions;
    const maps = ['mean quality', 'share good'] as const;
    const height = Math.max(16, Math.min(26, 200 / passes.length)) * passes.length;
    const gap = nameRoom(passLabels) + 14;
    const last = labels.length - 1;
    return {
      $schema: SCHEMA,
      config: { ...chartConfig(), concat: { spacing: 14 } },
      align: 'each',
      columns: 2,
      resolve: { scale: { color: 'shared' } },
      concat: summary.strategies.flatMap((strategy, place) =>
        maps.map((map, column) => ({
          width: (WIDTH - nameRoom(labels) - gap - 44) / 2,
          height,
          layer: [
            ...(column === 0 ? [rowName(labels[place], gap, height)] : []),
            {
              data: {
                values: cells(strategy, width).map((cell) => ({
                  pass: passLabels[passes.indexOf(cell.pass)],
                  from: cell.from - 0.5,
                  to: cell.to + 0.5,
                  class: classOf(column === 0 ? cell.quality : cell.good),
                })),
              },
              mark: { type: 'rect' as const },
              encoding: {
                x: {
                  field: 'from',
                  type: 'quantitative' as const,
                  title: place === last ? `Region, ${map}` : null,
                  scale: { domain: [0.5, regions + 0.5], nice: false, zero: false },
                  axis: { grid: false, tickMinStep: 1, format: '~f', tickCount: 6, labels: place === last },
                },
                x2: { field: 'to' },
                y: {
                  field: 'pass',
                  type: 'nominal' as const,
                  title: null,
                  sort: [...passLabels],
                  axis: column === 0 ? { domain: false, ticks: false } : null,
                },
                color: {
                  field: 'class',
                  type: 'nominal' as const,
                  scale: { domain: CLASSES, range: QUALITY_TONES.map((tone) => tone.light) },
                  legend: {
                    title: null,
                    orient: 'bottom' as const,
                    symbolType: 'square',
                    symbolStrokeWidth: 0,
                    columns: 6,
                  },
                },
              },
            },
          ],
        })),
      ),
    };
  },
  table: (summary) => {
    const drifts = summary.strategies.some(({ badScans }) => badScans !== undefined);
    const width = regionsPerCell(summary);
    const wider = Math.max(width, Math.ceil((summary.scenario.images * summary.strategies.length) / 240));
    return {
      columns: [
        { label: 'Strategy' },
        { label: 'Pass' },
        { label: wider > 1 ? 'Regions' : 'Region', numeric: true },
        { label: 'Mean quality', numeric: true },
        { label: 'Good', numeric: true },
        { label: 'Undetected bad', numeric: true },
        { label: 'Missing', numeric: true },
        ...(drifts ? DRIFT_COLUMNS : []),
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
          ...(drifts
            ? [cell.driftFactor, cell.badByDrift].map((value) => (value === null ? '' : fixed(value, 3)))
            : []),
        ]),
      ),
    };
  },
};
