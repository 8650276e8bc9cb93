import type { Scenario, WorkflowName } from './schema/scenario.js';

type Plan = Pick<Scenario['plan'], 'samples' | 'regions'>;

/** One sample of the plan. Regions are numbered through all samples, from 0. */
export interface Sample {
  readonly name: string;
  /** The first of its regions. */
  readonly firstRegion: number;
  readonly regions: number;
}

/** The samples in the order in which they are measured; those without a name of their own are called by their number. */
export function samplesOf({ samples, regions }: Plan): readonly Sample[] {
  const listed: readonly { readonly name: string; readonly regions?: number | undefined }[] =
    typeof samples === 'number' ? Array.from({ length: samples }, (_, i) => ({ name: `${i + 1}` })) : samples;
  let firstRegion = 0;
  return listed.map((sample) => {
    const own = sample.regions ?? regions;
    firstRegion += own;
    return { name: sample.name, firstRegion: firstRegion - own, regions: own };
  });
}

/** A sample as people say it: `sample 2`, or `sample one night` where it has a name of its own. */
export function sampleText({ name }: Sample): string {
  return /^sample\b/iu.test(name) ? name : `sample ${name}`;
}

/** Where an image is taken. */
interface Where {
  readonly sample: number;
  readonly region: number;
}

/** The number of a region within its sample, from 1. */
export function numberInSample(samples: readonly Sample[], { sample, region }: Where): number {
  return region - samples[sample].firstRegion + 1;
}

/** Where an image is taken, as people say it: a region, of several samples with that of which it is. */
export function regionText(samples: readonly Sample[], where: Where): string {
  const own = `region ${numberInSample(samples, where)}`;
  return samples.length === 1 ? own : `${sampleText(samples[where.sample])}, ${own}`;
}

/** Steps that only a plan of several samples comes to, by workflow. */
export const STEPS_BETWEEN_SAMPLES: Readonly<Record<WorkflowName, readonly string[]>> = {
  swap: ['changeSample'],
  hop: ['changeSample', 'align'],
};

/** How many regions all samples have together. */
export function regionCount(plan: Plan): number {
  return samplesOf(plan).reduce((sum, { regions }) => sum + regions, 0);
}

export interface Supply {
  readonly atHand: number;
  /** Seconds from running out to the delivery. */
  readonly restock?: number | undefined;
}

/** The most samples of which one instrument measures regions. */
export function samplesAtOne({ plan, instruments }: Pick<Scenario, 'plan' | 'instruments'>): number {
  const samples = samplesOf(plan).length;
  return samples >= instruments ? Math.ceil(samples / instruments) : samples;
}

/** Spares beside the first specimen of every sample, where the scenario does not say what is at hand. */
const USUAL_SPARES = 2;

/** Specimens at hand for each instrument: the first of every sample counts, too. */
export function specimenSupply(settings: Pick<Scenario, 'plan' | 'stock' | 'instruments'>): Supply {
  return settings.stock.specimens ?? { atHand: samplesAtOne(settings) + USUAL_SPARES };
}

/** The instrument, from 0, at which a region of a sample is measured. */
export function instrumentFor(sample: number, regionInSample: number, samples: number, instruments: number): number {
  return samples >= instruments ? sample % instruments : regionInSample % instruments;
}
