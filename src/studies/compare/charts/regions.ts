import { max, mean as average, min } from 'simple-statistics';
import type { ImageSummary, StrategySummary, Summary } from '../../../analysis/results.js';

/** Images of neighbouring regions and one pass taken together. */
export interface Cell {
  readonly pass: string;
  /** First and last region, from 1. */
  readonly from: number;
  readonly to: number;
  readonly quality: number;
  readonly good: number;
  readonly undetectedBad: number;
  readonly missing: number;
  /** Mean factor by drift where something was kept, and bad scans by drift alone; null where nothing drifts or was kept. */
  readonly driftFactor: number | null;
  readonly badByDrift: number | null;
}

/** Cells in a picture over all strategies at most. */
const MOST_CELLS = 2000;

/** Regions in a cell: 1 as long as the plan has no more than 600 images. */
export function regionsPerCell(summary: Summary): number {
  const { images, regions, passes } = summary.scenario;
  if (images <= 600 && images * summary.strategies.length <= MOST_CELLS) return 1;
  const across = Math.max(12, Math.floor(MOST_CELLS / (passes.length * summary.strategies.length)));
  return Math.ceil(regions / Math.min(across, 100));
}

export function cells(strategy: StrategySummary, width: number): readonly Cell[] {
  const groups = new Map<string, ImageSummary[]>();
  for (const image of strategy.images) {
    const key = `${String(Math.floor((image.region - 1) / width))}/${image.pass}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [image]);
    else group.push(image);
  }
  return [...groups.values()].map((images) => {
    const mean = (of: (image: ImageSummary) => number): number =>
      images.reduce((sum, image) => sum + of(image), 0) / images.length;
    const regions = images.map((image) => image.region);
    return {
      pass: images[0].pass,
      from: min(regions),
      to: max(regions),
      quality: mean((image) => image.quality),
      good: mean((image) => image.good),
      undetectedBad: mean((image) => image.undetectedBad),
      missing: mean((image) => image.missing),
      driftFactor: meanOf(images.map(({ drift }) => drift?.factor ?? null)),
      badByDrift: meanOf(images.map(({ drift }) => drift?.badScans.byDrift ?? null)),
    };
  });
}

/** Mean of those there are; null where there is none. */
function meanOf(values: readonly (number | null)[]): number | null {
  const given = values.filter((value) => value !== null);
  return given.length === 0 ? null : average(given);
}
