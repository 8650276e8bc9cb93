import { runCampaign } from '../campaign/campaign.js';
import { type CampaignModel, compileModel } from '../campaign/model.js';
import type { Outcome } from '../campaign/outcome.js';
import type { LuckTable } from '../chance/luck.js';
import type { Strategy } from '../scenario/load.js';

/** A strategy ready to be run. */
export interface Runnable {
  readonly name: string;
  readonly model: CampaignModel;
}

export function runnable(strategies: readonly Strategy[]): readonly Runnable[] {
  return strategies.map(({ name, workflow, settings }) => ({ name, model: compileModel(workflow, settings) }));
}

/** One replication of one strategy. Replications are numbered from 1; an error inside says which one it was. */
export function replicate({ name, model }: Runnable, table: LuckTable, replication: number): Outcome {
  try {
    return runCampaign(model, table.replication(replication));
  } catch (error) {
    throw new Error(`strategy ${name}, replication ${replication} failed`, { cause: error });
  }
}
