import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { compileModel } from '../../src/campaign/model.js';
import { exampleAt } from '../../src/studies/midway/made-state.js';
import { midway } from '../../src/studies/midway/midway.js';
import { midwayReport } from '../../src/studies/midway/report.js';
import { root } from './command.js';
import { expect } from 'vitest';
import type { OpenPages } from './page-checks.js';
import { textsOf } from './report-texts.js';
import { loadedOf } from './run.js';

/** Scenarios with the moment at which a simulated campaign of theirs is taken up: the longest cautions, and chips. */
const TAKEN_UP = {
  vacuum: ['vacuum-terraces', 0, 24],
  islands: ['ambient-islands', 2, 2],
  kinds: ['multi-tip-device', 0, 2],
} as const;

/** Page and run sheet of some of them, by name and by name with `-sheet`. */
export async function midwayPages(...names: (keyof typeof TAKEN_UP)[]): Promise<Record<string, string>> {
  const written: Record<string, string> = {};
  for (const name of names) {
    const [scenario, place, hours] = TAKEN_UP[name];
    const loaded = loadedOf(readFileSync(join(root, `scenarios/${scenario}.yaml`), 'utf8'));
    const { name: strategy, workflow, settings } = loaded.strategies[place];
    const model = compileModel(workflow, settings);
    const known = exampleAt(model, loaded.base.seed, model.start + hours * 3_600_000_000);
    if (known === null) throw new Error('The campaign is under way.');
    const result = midway(loaded, {
      ...{ strategy, model, known, replications: 60 },
      ...{ file: `${scenario}.yaml`, sha256: 'abc', toolVersion: '0.0.0', state: { file: 'state.csv', sha256: 'def' } },
    });
    const files = await textsOf(midwayReport, result);
    written[name] = files.get('report.html') ?? '';
    written[`${name}-sheet`] = files.get('run-sheet.html') ?? '';
  }
  return written;
}

/** Holds a run sheet to the one page on which it hangs beside the instrument. */
export async function holdToOnePage({ onPage }: OpenPages, name: string): Promise<void> {
  await onPage(`${name}-sheet`, {}, async (tab, address) => {
    await tab.goto(address);
    const pdf = await tab.pdf({ preferCSSPageSize: true });
    expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
  });
}
