import { readFileSync } from 'node:fs';
import { budgetReport } from '../../src/studies/budget/report.js';
import { BUDGET_CHARTS } from '../../src/studies/budget/charts.js';
import { budget } from '../../src/studies/budget/budget.js';
import { checkAccess, checkPage, openPages } from '../support/page-checks.js';
import { textsOf } from '../support/report-texts.js';
import { loadedOf } from '../support/run.js';

const small = readFileSync(new URL('../support/small.yaml', import.meta.url), 'utf8');

const pages = openPages(async () => {
  const loaded = loadedOf(small);
  const granted = { unit: 'hour', amount: 2 } as const;
  const result = budget(loaded, {
    file: 'small.yaml',
    sha256: '0',
    toolVersion: '0',
    command: 'swap-or-hop budget small.yaml --replications 100',
    replications: 100,
    granted,
  });
  const files = await textsOf(budgetReport, result);
  return { budget: files.get('report.html') ?? '' };
});

checkPage(pages, 'budget', BUDGET_CHARTS.length);
checkAccess(pages, 'budget', 'light');
checkAccess(pages, 'budget', 'dark');
