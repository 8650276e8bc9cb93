import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { compileModel } from '../../src/campaign/model.js';
import { midwayReport } from '../../src/studies/midway/report.js';
import { exampleAt } from '../../src/studies/midway/made-state.js';
import { midway } from '../../src/studies/midway/midway.js';
import { root } from '../support/command.js';
import { checkAccess, checkPage, openPages } from '../support/page-checks.js';
import { textsOf } from '../support/report-texts.js';
import { loadedOf } from '../support/run.js';

/** Scenarios with the moment at which a simulated campaign of theirs is taken up: the longest cautions, and chips. */
const TAKEN_UP = [
  ['vacuum', 'vacuum-terraces', 0, 24],
  ['islands', 'ambient-islands', 2, 2],
  ['kinds', 'multi-tip-device', 0, 2],
] as const;

const pages = openPages(async () => {
  const written: Record<string, string> = {};
  for (const [name, scenario, place, hours] of TAKEN_UP) {
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
});

checkPage(pages, 'vacuum', 2);
checkPage(pages, 'islands', 2);
checkAccess(pages, 'islands', 'light');
checkAccess(pages, 'kinds', 'dark');
checkAccess(pages, 'islands-sheet', 'light');

describe('the run sheet', () => {
  it.each(TAKEN_UP.map(([name]) => name))('of %s prints on one page of A4', async (name) => {
    await pages.onPage(`${name}-sheet`, {}, async (tab, address) => {
      await tab.goto(address);
      const pdf = await tab.pdf({ preferCSSPageSize: true });
      expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
    });
  });
});
