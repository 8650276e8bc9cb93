/** All files of a sensitivity's report, by name. Nothing is written here. */

import { isByHand } from '../../study/by-hand.js';
import { measureName } from '../../study/words.js';
import type { Sensitivity } from '../../study/sensitivity/results.js';
import { answerBox, answerText } from '../answer.js';
import { estimateLine, numberText, SHARE } from '../format.js';
import { prettyJson } from '../json.js';
import { cautionsSection, citation, howComputedSection, inCharts } from '../page/method.js';
import { picturesSection, planFacts, studyPage } from '../page.js';
import { type Draw, drawCharts } from '../pictures.js';
import { recordFacts } from '../study-facts.js';
import type { Styles } from '../terminal.js';
import { sensitivityCsv } from './csv.js';
import { effectsChart } from './effects-chart.js';
import { sensitivityScale, shortSwingTable } from './tables.js';
import { tornadoChart } from './tornado-chart.js';

/** Texts of a report by their name inside its folder. */
export async function sensitivityFiles(result: Sensitivity, draw?: Draw | null): Promise<Map<string, string>> {
  const pictures = await drawCharts([tornadoChart, effectsChart], result, draw);
  const files = new Map(pictures.files);
  files.set('report.html', page(result, pictures.figures));
  files.set('summary.json', prettyJson(result));
  files.set('sensitivity.csv', sensitivityCsv(result));
  return files;
}

const MOST_ROWS = 15;

/** Text for the terminal: the values that change most, and the answer last. */
export function sensitivityText(result: Sensitivity, styles: Styles, columns?: number): string {
  const [first, second] = result.between;
  const here = estimateLine(result.difference, sensitivityScale(result), true);
  return answerText(
    {
      record: result,
      run: `${numberText(result.campaigns)} campaigns, ${numberText(result.level, SHARE)} intervals`,
      tables: [
        {
          title: `“${second}” less “${first}” in ${measureName(result.measure)}: ${here} as the values stand, and at the ends of ranges (intervals in the report)`,
          table: shortSwingTable(result, MOST_ROWS),
        },
      ],
      warnings: result.warnings,
      answer: result.answer,
    },
    styles,
    columns,
  );
}

function page(result: Sensitivity, figures: readonly string[]): string {
  const [first, second] = result.between;
  return studyPage({
    kicker: `Which values decide between two ways of working, by ${measureName(result.measure)}`,
    record: result,
    facts: planFacts(result.scenario, null),
    sections: [
      answerBox(result.answer, result.warnings),
      picturesSection(figures),
      cautionsSection(result.scenario),
      howComputedSection({
        isStopped: isByHand(result.stopping),
        intro:
          'Each value is put to both ends of its range with all others as they stand, on the same luck; where the difference has another sign there, settings are put in between until the place at which it turns is known. Then all values are moved about within their ranges at once, one after the other along random trajectories, which shows what each weighs whatever the others are.',
        facts: [
          ['Compared', `“${second}” less “${first}”, ${measureName(result.measure)}`],
          [
            'Values tried',
            `${numberText(result.swings.length)}: ${result.isAll ? 'all that are not chosen' : 'those that are only assumed'}, over the range that the scenario gives, or else that of the value’s kind (the schema’s), or else ×1.5 and ÷1.5`,
          ],
          ['Campaigns', `${numberText(result.campaigns)}; ${result.stopping}`],
          [
            'Intervals',
            `${numberText(result.level, SHARE)}, two-sided, each by itself. At an end it comes of the difference as the values stand and of replications run in both places on the same luck (a control variate, its coefficient estimated). A turning place inverts the paired t interval (E. C. Fieller, J. R. Stat. Soc. B 16, 175, 1954).`,
          ],
          ...(result.morris === null
            ? []
            : [
                [
                  'Elementary effects',
                  `${numberText(result.morris.trajectories)} trajectories on ${numberText(result.morris.levels)} levels, ${numberText(result.morris.replications)} replications a point, each trajectory on luck of its own (M. D. Morris, Technometrics 33, 161, 1991; mu* after Campolongo et al., Environ. Model. Softw. 22, 1509, 2007)`,
                ] as const,
              ]),
          ...recordFacts(result),
        ],
        command: result.command,
        cite: `${citation(result, `${numberText(result.campaigns)} campaigns`)} All numbers are in \`summary.json\` and \`sensitivity.csv\`${inCharts(result.stopping)}.`,
      }),
    ],
  });
}
