import type { CampaignModel, ImageModel } from '../../campaign/model.js';

type Plan = Pick<CampaignModel, 'samples'>;

/** A sample as people say it: `sample 2`, or by a name of its own. */
export function sampleName({ samples }: Plan, sample: number): string {
  const { name } = samples[sample];
  return /^sample\b/iu.test(name) ? name : `sample ${name}`;
}

/** The number of a region within its sample, from 1, as people say it. */
export function numberInSample({ samples }: Plan, { sample, region }: Pick<ImageModel, 'sample' | 'region'>): number {
  return region - samples[sample].firstRegion + 1;
}

/** An image within its sample: `region 3: islands`. */
export function nameInSample(plan: Plan, image: ImageModel): string {
  return `region ${numberInSample(plan, image)}: ${image.pass.demand.pass.name}`;
}

/** An image of the plan: `region 3: islands`, or `sample 2 region 3: islands` where there are several samples. */
export function imageName(plan: Plan, image: ImageModel): string {
  const name = nameInSample(plan, image);
  return plan.samples.length === 1 ? name : `${sampleName(plan, image.sample)} ${name}`;
}
