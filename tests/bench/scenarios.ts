import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { root } from '../support/command.js';
import { measure } from './job.js';
import { jobOn } from './plain-case.js';
import { rate, type Spread, spreadOf } from './spread.js';
import { loadedOf } from '../support/run.js';

/** How fast the campaigns of one strategy of a scenario are. */
export interface StrategySpeed {
  readonly scenario: string;
  readonly strategy: string;
  readonly images: number;
  readonly eventsPerCampaign: number;
  /** Per second of the processor. */
  readonly campaigns: Spread;
}

/** Measures every strategy of every scenario in `scenarios/`. */
export function measureScenarios(tell: (what: string) => void): readonly StrategySpeed[] {
  const files = readdirSync(join(root, 'scenarios')).filter((file) => file.endsWith('.yaml'));
  return files.flatMap((file) => {
    const text = readFileSync(join(root, 'scenarios', file), 'utf8');
    const loaded = loadedOf(text);
    return loaded.strategies.map(({ name }, strategy) => {
      tell(`${file}, ${name}`);
      const { slices, eventsPerCampaign, images } = measure(jobOn(text, { strategy }));
      return { scenario: file, strategy: name, images, eventsPerCampaign, campaigns: spreadOf(slices.map(rate)) };
    });
  });
}
