import { LuckTable } from '../../src/chance/luck.js';
import { runCampaign } from '../../src/campaign/campaign.js';
import { type CampaignModel, compileModel } from '../../src/campaign/model.js';
import type { Outcome } from '../../src/campaign/outcome.js';
import { type LoadedScenario, loadRaw, loadScenario } from '../../src/scenario/load.js';

/** Anything that YAML can say. */
export type Raw = Readonly<Record<string, unknown>>;

/** A scenario, as text or as data. Throws with every fault if it is not sound. */
export function loadedOf(scenario: string | Raw): LoadedScenario {
  const loaded = typeof scenario === 'string' ? loadScenario(scenario) : loadRaw(scenario);
  if (!loaded.ok)
    throw new Error(loaded.faults.map((fault) => `${fault.line}: ${fault.path}: ${fault.message}`).join('\n'));
  return loaded.scenario;
}

/** Models of all strategies of a scenario, by name. */
export function modelsOf(scenario: string | Raw): ReadonlyMap<string, CampaignModel> {
  return new Map(
    loadedOf(scenario).strategies.map(({ name, workflow, settings }) => [name, compileModel(workflow, settings)]),
  );
}

/** The model of the only strategy of a scenario. */
export function modelOf(scenario: string | Raw): CampaignModel {
  const [model] = modelsOf(scenario).values();
  return model;
}

/** Outcomes of replications 0 to n − 1. */
export function runMany(model: CampaignModel, seed: string, n: number): Outcome[] {
  const table = new LuckTable(seed);
  return Array.from({ length: n }, (_, replication) => runCampaign(model, table.replication(replication)));
}
