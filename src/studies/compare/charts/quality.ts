import { fixed, numberText, SHARE } from '../../../wording/numbers.js';
import { capital, listed } from '../../../wording/phrases.js';
import type { StrategySummary, Summary } from '../../../analysis/results.js';
import { QUALITY_TONES } from '../../../report/palette.js';
import { type Cell, cells, regionsPerCell } from './regions.js';
import { uniqueLabels } from '../../../report/text.js';
import { type Chart, strategyLabels } from '../../../report/charts/chart.js';
import { heatMap } from '../../../report/charts/heat-map.js';

const BOUNDS = [0.5, 0.7, 0.8, 0.9, 0.95];
const CLASSES = ['below 0.5', '0.5 to 0.7', '0.7 to 0.8', '0.8 to 0.9', '0.9 to 0.95', '0.95 to 1'];

function classOf(value: number): string {
  return CLASSES[BOUNDS.filter((bound) => value >= bound).length];
}

const MAPS = [
  {
    name: 'mean quality',
    means: 'mean quality of the kept attempt (0 where none was kept)',
    of: ({ quality: mean }: Cell) => mean,
  },
  { name: 'share good', means: 'share of replications in which the image is good', of: ({ good }: Cell) => good },
];

/** Maps on which something is to be seen: not all of their cells are in one class. */
function telling(summary: Summary): typeof MAPS {
  const width = regionsPerCell(summary);
  const all = summary.strategies.flatMap((strategy) => cells(strategy, width));
  return MAPS.filter(({ of }) => new Set(all.map((cell) => classOf(of(cell)))).size > 1);
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
    const maps = telling(summary);
    const width = regionsPerCell(summary);
    return (
      `${capital(listed(maps.map(({ name, means }) => `${name}: ${means}`)))}. The more a cell stands out, the worse.` +
      (width > 1 ? ` Each cell is the mean of up to ${String(width)} neighbouring regions.` : '') +
      badScansText(summary)
    );
  },
  alt: (summary) =>
    `Maps for each strategy, regions across and passes down. ${listed(
      summary.strategies.filter((strategy) => strategy.images.length > 0).map(worst),
    )}.`,
  drawing: (summary) => {
    const maps = telling(summary);
    if (maps.length === 0) return null;
    const width = regionsPerCell(summary);
    const passes = [...new Set(summary.strategies.flatMap((strategy) => strategy.images.map((image) => image.pass)))];
    const places = uniqueLabels(passes, 16);
    const labels = strategyLabels(summary);
    return heatMap({
      looks: CLASSES.map((name, place) => ({ name, tone: QUALITY_TONES[place] })),
      columns: maps.length,
      step: Math.max(16, Math.min(26, 200 / passes.length)),
      panels: summary.strategies.flatMap((strategy, place) =>
        maps.map(({ name, of }) => ({
          title: `${labels[place]}: ${name}`,
          x: {
            title: place === labels.length - 1 ? 'Region' : null,
            domain: [0.5, summary.scenario.regions + 0.5],
            isWhole: true,
            isBare: place < labels.length - 1,
          },
          y: { title: null, places },
          cells: cells(strategy, width).map((cell) => ({
            x: cell.from - 0.5,
            x2: cell.to + 0.5,
            y: places[passes.indexOf(cell.pass)],
            look: classOf(of(cell)),
          })),
        })),
      ),
    });
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
          numberText(cell.undetectedBad, SHARE),
          numberText(cell.missing, SHARE),
          ...(drifts
            ? [cell.driftFactor, cell.badByDrift].map((value) => (value === null ? '' : fixed(value, 3)))
            : []),
        ]),
      ),
    };
  },
};
