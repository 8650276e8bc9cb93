import { LuckTable } from '../../src/chance/luck.js';
import { runCampaign } from '../../src/campaign/campaign.js';
import { compileModel } from '../../src/campaign/model.js';
import { loadScenario } from '../../src/scenario/load.js';
import { BitDigest, luckDigest } from './luck-digest.js';

/** Hash of the bits of everything that the first replications of all strategies of a scenario measure; runs in a browser too. */
export function campaignDigest(text: string, replications: number): string {
  const loaded = loadScenario(text);
  if (!loaded.ok) return loaded.faults.map(({ message }) => message).join('; ');
  const digest = new BitDigest();
  const table = new LuckTable(loaded.scenario.base.seed);
  for (const { workflow, settings } of loaded.scenario.strategies) {
    const model = compileModel(workflow, settings);
    for (let replication = 1; replication <= replications; replication += 1) {
      const outcome = runCampaign(model, table.replication(replication));
      for (const value of [outcome.totalTime, outcome.instrumentTime, outcome.operatorTime, outcome.overrun])
        digest.add(value);
      for (const value of [outcome.yield, outcome.apparentYield, outcome.cost, outcome.takes, outcome.tips])
        digest.add(value);
      for (const time of outcome.split.flat()) digest.add(time);
      for (const { kept } of outcome.images) digest.add(kept?.quality ?? -1);
      for (const { use } of outcome.tipRecords) digest.add(use.path);
    }
  }
  return digest.toString();
}

export { luckDigest };
