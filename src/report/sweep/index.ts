/** All files of a sweep's report, by name. Nothing is written here. */

import { isByHand } from '../../study/by-hand.js';
import type { Sweep } from '../../study/sweep/results.js';
import { settingLabel } from '../../study/vary/axis.js';
import { answerBox, answerText } from '../answer.js';
import { numberText, SHARE } from '../format.js';
import { prettyJson } from '../json.js';
import { cautionsSection, citation, howComputedSection, inCharts } from '../page/method.js';
import { picturesSection, planFacts, studyPage } from '../page.js';
import { type Draw, drawCharts } from '../pictures.js';
import { recordFacts } from '../study-facts.js';
import type { Styles } from '../terminal.js';
import { listed } from '../text.js';
import { sweepCsv } from './csv.js';
import { linesChart } from './lines-chart.js';
import { mapChart } from './map-chart.js';
import { partsChart } from './parts-chart.js';
import { shortSweepTable } from './table.js';

const MAPS = [
  mapChart('time', 'Time over the plane'),
  mapChart('operatorTime', 'Operator time over the plane'),
  mapChart('lost', 'Scans lost over the plane'),
  mapChart('yield', 'Yield over the plane'),
  mapChart('cost', 'Cost over the plane'),
];

/** Texts of a report by their name inside its folder. */
export async function sweepFiles(result: Sweep, draw?: Draw | null): Promise<Map<string, string>> {
  const charts = result.ranges.length === 1 ? [linesChart, partsChart] : MAPS;
  const pictures = await drawCharts(result.cells.length === 0 ? [] : charts, result, draw);
  const files = new Map(pictures.files);
  files.set('report.html', page(result, pictures.figures));
  files.set('summary.json', prettyJson(result));
  files.set('sweep.csv', sweepCsv(result));
  return files;
}

/** Rows of a strategy in the terminal; what is beyond stands in the report. */
const MOST_ROWS = 25;

/** Text for the terminal: a table for each strategy that follows the ranges, and the answer last. */
export function sweepText(result: Sweep, styles: Styles, columns?: number): string {
  const tables = result.strategies
    .filter(({ follows }) => follows)
    .map(({ name }) => {
      const rest = result.cells.filter(({ strategy }) => strategy === name).length - MOST_ROWS;
      return {
        title: `${name}${rest > 0 ? ` (${numberText(rest)} more rows in the report)` : ''}`,
        table: shortSweepTable(result, name, MOST_ROWS),
      };
    });
  return answerText(
    {
      record: result,
      run: `${numberText(result.replications)} replications, means with ${numberText(result.level, SHARE)} intervals`,
      tables,
      warnings: result.warnings,
      answer: result.answer,
    },
    styles,
    columns,
  );
}

function pathsOf({ ranges }: Sweep): string {
  return listed(ranges.map(({ path }) => path));
}

function page(result: Sweep, figures: readonly string[]): string {
  return studyPage({
    kicker: `What becomes of the plan along ${pathsOf(result)}`,
    record: result,
    facts: planFacts(result.scenario, null),
    sections: [
      answerBox(result.answer, result.warnings),
      picturesSection(figures),
      cautionsSection(result.scenario),
      howComputedSection({
        isStopped: isByHand(result.stopping),
        intro:
          'Every strategy plays the whole plan at every setting on the same luck, replication by replication, so that what differs between settings is what they change and not chance. What is not told apart from the best is found by paired differences.',
        facts: [
          ...result.ranges.map(
            ({ path, description, settings }) =>
              [path, `${description}: ${listed(settings.map(settingLabel))}`] as const,
          ),
          [
            'Replications',
            `${numberText(result.replications)} of every strategy at every setting, ${numberText(result.campaigns)} campaigns; ${result.stopping}`,
          ],
          [
            'Intervals',
            `${numberText(result.level, SHARE)}, two-sided, each by itself; what is told apart from the best is so for all settings together (Bonferroni).`,
          ],
          ...recordFacts(result),
        ],
        command: result.command,
        cite: `${citation(result, `${numberText(result.replications)} replications`)} All numbers are in \`summary.json\` and \`sweep.csv\`${inCharts(result.stopping)}.`,
      }),
    ],
  });
}
