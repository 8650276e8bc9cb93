import { readFileSync } from 'node:fs';
import { budgetFiles } from '../../src/report/budget/index.js';
import { BUDGET_CHARTS } from '../../src/report/budget/charts.js';
import { loadScenario } from '../../src/scenario/load.js';
import { budget } from '../../src/study/budget/budget.js';
import { checkAccess, checkPage, openPages } from '../support/page-checks.js';

const small = readFileSync(new URL('../support/small.yaml', import.meta.url), 'utf8');

const pages = openPages(async () => {
  const loaded = loadScenario(small);
  if (!loaded.ok) throw new Error('the small scenario is not sound');
  const granted = { unit: 'hour', amount: 2 } as const;
  const result = budget(loaded.scenario, {
    file: 'small.yaml',
    sha256: '0',
    toolVersion: '0',
    command: 'swap-or-hop budget small.yaml --replications 100',
    replications: 100,
    granted,
  });
  const files = await budgetFiles(result);
  return { budget: files.get('report.html') ?? '' };
});

checkPage(pages, 'budget', BUDGET_CHARTS.length);
checkAccess(pages, 'budget', 'light');
checkAccess(pages, 'budget', 'dark');
