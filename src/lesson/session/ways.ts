import { runCampaign } from '../../campaign/campaign.js';
import type { CampaignModel } from '../../campaign/model.js';
import type { Outcome } from '../../campaign/outcome.js';
import type { Luck } from '../../chance/luck.js';
import type { Choice } from './choices.js';
import { Player, type Point } from './player.js';

/** Ways of deciding on every doubtful tip alike. */
export type Way = 'go on' | 'as ruled' | 'replace';

/** What is decided about a tip; images in doubt are taken again, as the rules say. */
const DECIDES: Readonly<Record<Way, (point: Point) => Choice>> = {
  'go on': () => 'go on',
  'as ruled': ({ ruled }) => ruled,
  replace: ({ doubt }) => (doubt === null ? 'go on' : 'replace'),
};

/** A session on which every doubt is decided in one way. */
export function playedIn(way: Way, model: CampaignModel, luck: Luck): Outcome {
  return runCampaign(
    model,
    luck,
    null,
    new Player((point) => (point.inDoubt === null ? DECIDES[way](point) : point.ruled)),
  );
}
