/** All files of a break-even's report, by name. Nothing is written here. */

import { isByHand } from '../../study/by-hand.js';
import type { BreakEven } from '../../study/breakeven/results.js';
import { measureName } from '../../study/words.js';
import { answerBox, answerText, type TerminalTable } from '../answer.js';
import { numberText, SHARE } from '../format.js';
import { prettyJson } from '../json.js';
import { cautionsSection, citation, howComputedSection, inCharts } from '../page/method.js';
import { picturesSection, planFacts, studyPage } from '../page.js';
import { type Draw, drawCharts } from '../pictures.js';
import { recordFacts } from '../study-facts.js';
import { htmlTable } from '../table.js';
import type { Styles } from '../terminal.js';
import { curveChart } from './curve-chart.js';
import { breakEvenCsv } from './csv.js';
import { planeChart } from './plane-chart.js';
import { curveTable, planeTable } from './tables.js';

/** Texts of a report by their name inside its folder. */
export async function breakEvenFiles(result: BreakEven, draw?: Draw | null): Promise<Map<string, string>> {
  const charts = result.lines.length === 0 ? [] : [result.across === null ? curveChart : planeChart];
  const pictures = await drawCharts(charts, result, draw);
  const files = new Map(pictures.files);
  files.set('report.html', page(result, pictures.figures));
  files.set('summary.json', prettyJson(result));
  files.set('breakeven.csv', breakEvenCsv(result));
  return files;
}

/** Text for the terminal: the settings tried, or the break-even line, and the answer last. */
export function breakEvenText(result: BreakEven, styles: Styles, columns?: number): string {
  return answerText(
    {
      record: result,
      run: `${numberText(result.campaigns)} campaigns, ${numberText(result.level, SHARE)} intervals`,
      tables: tables(result),
      warnings: result.warnings,
      answer: result.answer,
    },
    styles,
    columns,
  );
}

function tables(result: BreakEven): readonly TerminalTable[] {
  const [first, second] = result.between;
  if (result.across !== null)
    return [
      {
        title: `Where “${first}” and “${second}” are equal in ${measureName(result.measure)}`,
        table: planeTable(result),
      },
    ];
  const title = `“${second}” less “${first}”, by ${result.range.path}`;
  return result.lines.map((line) => ({ title, table: curveTable(result, line) }));
}

function page(result: BreakEven, figures: readonly string[]): string {
  const [first, second] = result.between;
  const shown = tables(result).map(
    ({ title, table }, place) => `<section aria-labelledby="table-${String(place)}">
<h2 id="table-${String(place)}">What was tried</h2>
${htmlTable(table, title)}
</section>`,
  );
  return studyPage({
    kicker: `Where two ways of working are equal in ${measureName(result.measure)}`,
    record: result,
    facts: planFacts(result.scenario, null),
    sections: [
      answerBox(result.answer, result.warnings),
      picturesSection(figures),
      ...shown,
      cautionsSection(result.scenario),
      howComputedSection({
        isStopped: isByHand(result.stopping),
        intro:
          'At every setting both strategies play the whole plan on the same luck, replication by replication; what is compared are the paired differences. Where these are told apart with opposite signs, settings are put in between until the place is known well enough. A break-even’s interval is where the interval of the difference holds zero. Two break-evens closer together than the settings tried may be missed.',
        facts: [
          ['Compared', `“${second}” less “${first}”, ${measureName(result.measure)}`],
          ...[result.range, ...(result.across === null ? [] : [result.across])].map(
            ({ path, description, low, high, unit, isLog }) =>
              [
                path,
                `${description}; from ${String(low)} to ${String(high)}${unit === '' ? '' : ` ${unit}`}${isLog ? ', in equal ratios' : ''}`,
              ] as const,
          ),
          ['Campaigns', `${numberText(result.campaigns)}; ${result.stopping}`],
          [
            'Intervals',
            `${numberText(result.level, SHARE)}, two-sided. That of a break-even inverts the paired t interval, linear between settings (E. C. Fieller, J. R. Stat. Soc. B 16, 175, 1954); those of differences hold for all settings together (Bonferroni).`,
          ],
          ...recordFacts(result),
        ],
        command: result.command,
        cite: `${citation(result, `${numberText(result.campaigns)} campaigns`)} All numbers are in \`summary.json\` and \`breakeven.csv\`${inCharts(result.stopping)}.`,
      }),
    ],
  });
}
