import { LuckTable } from '../../src/chance/luck.js';
import { runCampaign } from '../../src/campaign/campaign.js';
import { type CampaignModel, compileModel } from '../../src/campaign/model.js';
import type { Outcome } from '../../src/campaign/outcome.js';
import { loadScenario } from '../../src/scenario/load.js';

/** Models of all strategies of a scenario's text, by name. Throws with every fault if the text is not a sound scenario. */
export function modelsOf(text: string): ReadonlyMap<string, CampaignModel> {
  const loaded = loadScenario(text);
  if (!loaded.ok)
    throw new Error(loaded.faults.map((fault) => `${fault.line}: ${fault.path}: ${fault.message}`).join('\n'));
  return new Map(
    loaded.scenario.strategies.map(({ name, workflow, settings }) => [name, compileModel(workflow, settings)]),
  );
}

/** The model of the only strategy of a scenario's text. */
export function modelOf(text: string): CampaignModel {
  const [model] = modelsOf(text).values();
  return model;
}

/** Outcomes of replications 0 to n − 1. */
export function runMany(model: CampaignModel, seed: string, n: number): Outcome[] {
  const table = new LuckTable(seed);
  return Array.from({ length: n }, (_, replication) => runCampaign(model, table.replication(replication)));
}
