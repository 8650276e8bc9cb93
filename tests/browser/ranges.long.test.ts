import { readFileSync } from 'node:fs';
import { breakEvenReport } from '../../src/studies/breakeven/report.js';
import { sensitivityReport } from '../../src/studies/sensitivity/report.js';
import { sweepReport } from '../../src/studies/sweep/report.js';
import { breakEven } from '../../src/studies/breakeven/breakeven.js';
import { sensitivity } from '../../src/studies/sensitivity/sensitivity.js';
import { sweep } from '../../src/studies/sweep/sweep.js';
import { readVaried, type Varied } from '../../src/analysis/vary/varied.js';
import { checkAccess, checkPage, openPages } from '../support/page-checks.js';
import { textsOf } from '../support/report-texts.js';
import { loadedOf } from '../support/run.js';

// Without the note on workflows their steps are only assumed, so that there is something to be sensitive to.
const small = readFileSync(new URL('../support/small.yaml', import.meta.url), 'utf8').replace(
  / {2}workflows: .*\n/u,
  '',
);
const COMMAND = 'swap-or-hop breakeven small.yaml --vary plan.regions=2..30';
const RECORD = { file: 'small.yaml', sha256: '0', toolVersion: '0', warnings: ['a warning'], command: COMMAND };
const between = ['swap by hand', 'hop'] as const;

/** The page of a report made by a command line. */
function pageOf(files: ReadonlyMap<string, string>): string {
  return files.get('report.html') ?? '';
}

const pages = openPages(async () => {
  const loaded = loadedOf(small);
  const scenario = loaded;
  const varied = (text: string): Varied => {
    const reading = readVaried(scenario, text);
    if (!reading.ok) throw new Error(reading.message);
    return reading.value;
  };
  const regions = varied('plan.regions=2..30 in 3');
  const broken = varied('tips.sharp.hazards.breakage.life.perUnit=0.1, 0.3');
  const order = varied('plan.order=region-first, tip-first');
  const line = breakEven(scenario, { ...RECORD, vary: regions, between, measure: 'time' });
  const plane = breakEven(scenario, { ...RECORD, vary: regions, across: broken, between, measure: 'time' });
  const along = sweep(scenario, { ...RECORD, vary: [order] });
  const grid = sweep(scenario, { ...RECORD, vary: [varied('pace.scan=1, 2'), broken] });
  const swings = sensitivity(scenario, { ...RECORD, between, measure: 'time', isAll: false });
  return {
    breakeven: pageOf(await textsOf(breakEvenReport, line)),
    plane: pageOf(await textsOf(breakEvenReport, plane)),
    sweep: pageOf(await textsOf(sweepReport, along)),
    grid: pageOf(await textsOf(sweepReport, grid)),
    sensitivity: pageOf(await textsOf(sensitivityReport, swings)),
  };
});

for (const [page, pictures] of [
  ['breakeven', 1],
  ['plane', 1],
  ['sweep', 2],
  ['grid', 5],
  ['sensitivity', 2],
] as const) {
  checkPage(pages, page, pictures);
  checkAccess(pages, page, 'light');
  checkAccess(pages, page, 'dark');
}
