import { settingLabel } from '../../analysis/vary/axis.js';
import type { TerminalTable } from '../../report/answer.js';
import { numberText, SHARE } from '../../wording/numbers.js';
import { planFacts } from '../../report/page.js';
import { answerReport } from '../../report/report.js';
import { firstFitting } from '../../report/terminal-columns.js';
import { nameIn } from '../../scenario/describe.js';
import { listed, quoted } from '../../wording/phrases.js';
import { sweepCsv } from './csv.js';
import { linesChart } from './lines-chart.js';
import { mapChart } from './map-chart.js';
import { partsChart } from './parts-chart.js';
import type { Sweep } from './results.js';
import { shortSweepTables } from './table.js';

const MAPS = [
  mapChart('time', 'Time over the plane'),
  mapChart('operatorTime', 'Operator time over the plane'),
  mapChart('lost', 'Scans lost over the plane'),
  mapChart('yield', 'Yield over the plane'),
  mapChart('cost', 'Cost over the plane'),
];

export const sweepReport = answerReport<Sweep>({
  files: { 'sweep.csv': sweepCsv },
  charts: ({ cells, ranges }) => (cells.length === 0 ? [] : ranges.length === 1 ? [linesChart, partsChart] : MAPS),
  shown: (result) => {
    const level = numberText(result.level, SHARE);
    const run = `${numberText(result.replications)} replications`;
    return {
      kicker: `What becomes of the plan along ${listed(result.ranges.map(({ description }) => quoted(nameIn(description))))}`,
      facts: planFacts(result.scenario, null),
      answer: result.answer,
      warnings: result.warnings,
      run,
      terminal: { run: `${run}, means with ${level} intervals`, tables: (columns) => tables(result, columns) },
      intro:
        'Every strategy plays the whole plan at every setting with common random numbers, replication by replication, so that what differs between settings is what they change and not chance. What shows no clear difference from the best is found by paired differences.',
      method: [
        ...result.ranges.map(
          ({ path, description, settings }) => [path, `${description}: ${listed(settings.map(settingLabel))}`] as const,
        ),
        [
          'Replications',
          `${numberText(result.replications)} of every strategy at every setting, ${numberText(result.campaigns)} campaigns; ${result.stopping}`,
        ],
        [
          'Intervals',
          `${level}, two-sided, each by itself; what is clearly different from the best is so for all settings together (Bonferroni).`,
        ],
      ],
      rest: 'All numbers are in `summary.json` and `sweep.csv`',
    };
  },
});

/** A table for each strategy that follows the ranges. */
function tables(result: Sweep, columns: number | undefined): readonly TerminalTable[] {
  return result.strategies
    .filter(({ follows }) => follows)
    .map(({ name }) => ({
      title: name,
      table: firstFitting(shortSweepTables(result, name), columns),
      isAlong: true,
    }));
}
