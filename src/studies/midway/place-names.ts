import type { CampaignModel, ImageModel } from '../../campaign/model.js';
import { numberInSample, regionText } from '../../scenario/samples.js';

type Plan = Pick<CampaignModel, 'samples'>;

/** An image within its sample: `region 3: islands`. */
export function nameInSample({ samples }: Plan, image: ImageModel): string {
  return `region ${numberInSample(samples, image)}: ${image.pass.demand.pass.name}`;
}

/** An image of the plan: `region 3: islands`, or `sample 2, region 3: islands` where there are several samples. */
export function imageName({ samples }: Plan, image: ImageModel): string {
  return `${regionText(samples, image)}: ${image.pass.demand.pass.name}`;
}
