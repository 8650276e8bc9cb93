import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseDocument } from 'yaml';
import { measure, use, type Used } from './job.js';
import { jobOn, PLAIN } from './plain-case.js';
import { rate, type Spread, spreadOf } from './spread.js';

const IMAGES = [10, 100, 1000, 10_000];
const REPLICATIONS = [1000, 10_000, 100_000];
const STRATEGIES = [1, 2, 4, 8];
/** What the target for memory names. */
const MOST_IMAGES = 100_000;
const MOST_REPLICATIONS = 1_000_000;

/** What a campaign costs in a plan of so many images. */
export interface PlanCost {
  readonly images: number;
  readonly eventsPerCampaign: number;
  /** Microseconds of the processor for an image. */
  readonly perImage: Spread;
}

/** What a whole `compare` costs. */
export interface CompareCost {
  readonly images: number;
  readonly replications: number;
  readonly strategies: number;
  readonly used: Used;
}

/** The plain case with one image a region, so many of them, and so many strategies, all alike but in name. */
export function plainOf(images: number, strategies = 1): string {
  const scenario = parseDocument(PLAIN);
  scenario.setIn(['plan', 'regions'], images);
  scenario.deleteIn(['plan', 'passes', 2]);
  scenario.deleteIn(['plan', 'passes', 1]);
  for (let more = 2; more <= strategies; more += 1)
    scenario.addIn(['strategies'], { name: `swap ${more}`, workflow: 'swap' });
  return scenario.toString();
}

/** One thread, plans of 10 to 10 000 images. */
export function costByPlan(tell: (what: string) => void): readonly PlanCost[] {
  return IMAGES.map((images) => {
    tell(`plan of ${images} images`);
    const { slices, eventsPerCampaign } = measure(jobOn(plainOf(images)));
    return { images, eventsPerCampaign, perImage: spreadOf(slices.map((slice) => 1e6 / (rate(slice) * images))) };
  });
}

/** Whole comparisons of growing size, reported in a folder. The longest two, which the target for memory names, only where `long`. */
export function costOfComparing(folder: string, long: boolean, tell: (what: string) => void): readonly CompareCost[] {
  const sizes = [
    ...REPLICATIONS.map((replications) => ({ images: 10, replications, strategies: 1 })),
    ...(long ? [{ images: 10, replications: MOST_REPLICATIONS, strategies: 1 }] : []),
    ...STRATEGIES.map((strategies) => ({ images: 100, replications: 2000, strategies })),
    ...[1000, 10_000, ...(long ? [MOST_IMAGES] : [])].map((images) => ({ images, replications: 20, strategies: 1 })),
  ];
  return sizes.map(({ images, replications, strategies }) => {
    tell(`compare: ${images} images, ${replications} replications, strategies ${strategies}`);
    const file = join(folder, 'scenario.yaml');
    writeFileSync(file, plainOf(images, strategies));
    const used = use(['compare', file, '--replications', String(replications), '--out', join(folder, 'report')]);
    return { images, replications, strategies, used };
  });
}
