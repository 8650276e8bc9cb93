/** All files of a report on a campaign under way, by name. Nothing is written here. */

import { isByHand } from '../../study/by-hand.js';
import type { MidwayResult } from '../../study/midway/results.js';
import { answerBox, answerText } from '../answer.js';
import { numberText, SHARE } from '../format.js';
import { prettyJson } from '../json.js';
import { picturesSection, planFacts, studyPage } from '../page.js';
import { cautionsSection, citation, howComputedSection, inCharts } from '../page/method.js';
import { type Draw, drawCharts } from '../pictures.js';
import { recordFacts } from '../study-facts.js';
import { htmlTable } from '../table.js';
import type { Styles } from '../terminal.js';
import { html } from '../text.js';
import { MIDWAY_CHARTS } from './charts.js';
import { runSheetMarkdown, runSheetPage } from './run-sheet.js';
import { sessionsInShort, sessionsTable, standingTable, waysInShort, waysTable } from './tables.js';
import { answerOf, INSTRUMENT_TIME, PRESUMED } from './words.js';

export async function midwayFiles(result: MidwayResult, draw?: Draw | null): Promise<Map<string, string>> {
  const pictures = await drawCharts(MIDWAY_CHARTS, result, draw);
  const files = new Map(pictures.files);
  files.set('report.html', page(result, pictures.figures));
  files.set('run-sheet.html', runSheetPage(result));
  files.set('run-sheet.md', runSheetMarkdown(result));
  files.set('summary.json', prettyJson(result));
  return files;
}

function page(result: MidwayResult, figures: readonly string[]): string {
  return studyPage({
    kicker: `The rest of a campaign under way, from ${result.now.clock}`,
    record: result,
    facts: [['Strategy', result.strategy], ...planFacts(result.scenario, result.allocation)],
    sections: [
      answerBox(answerOf(result), warningsOf(result)),
      waysSection(result),
      picturesSection(figures),
      `<section aria-labelledby="standing">
<h2 id="standing">How it stands</h2>
${htmlTable(standingTable(result), `As read from ${result.state.file}`)}
</section>`,
      `<section aria-labelledby="presumed">
<h2 id="presumed">What is presumed of the past</h2>
<ul class="plain">${PRESUMED.map((text) => `<li>${html(text)}</li>`).join('\n')}</ul>
</section>`,
      cautionsSection(result.scenario),
      howComputedSection({
        isStopped: isByHand(result.stopping),
        intro:
          'Each replication first draws what is hidden of the campaign as it stands, then plays the rest of the plan, scan by scan, once for each way to go on. All ways meet the same hidden state and the same luck, so their differences are paired.',
        facts: [
          ['Replications', `${numberText(result.replications)} of every way to go on; ${result.stopping}`],
          [
            'Intervals',
            `${numberText(result.confidence.level, SHARE)}, two-sided; chances by Clopper and Pearson. Differences are widened by Bonferroni over ${numberText(result.confidence.comparisons)} comparisons.`,
          ],
          [
            'Assumed',
            `${numberText(result.assumed.values)} of ${numberText(result.assumed.of)} values have no source; compare lists them all and tries their ranges.`,
          ],
          ...recordFacts(result),
        ],
        command: result.command,
        cite: `${citation(result, `${numberText(result.replications)} replications`)} The sheet for the instrument is \`run-sheet.html\`, to be printed, and \`run-sheet.md\`; all numbers are in \`summary.json\`${inCharts(result.stopping)}.`,
      }),
    ],
  });
}

function waysSection(result: MidwayResult): string {
  const sessions = sessionsTable(result);
  const bySession =
    sessions.rows.length === 0 ? '' : `\n<h3>By session</h3>\n${htmlTable(sessions, 'Chance to be finished')}`;
  return `<section aria-labelledby="ways">
<h2 id="ways">Ways to go on</h2>
${htmlTable(waysTable(result), `Means with intervals, over ${numberText(result.replications)} replications`)}
<p class="note">The yield counts the whole plan, with what was scanned before now; time, tips and cost count from now. ${html(INSTRUMENT_TIME)}</p>${bySession}
</section>`;
}

function warningsOf({ warnings, guessed }: MidwayResult): readonly string[] {
  if (guessed === 0) return warnings;
  return [
    ...warnings,
    `In ${numberText(guessed, SHARE)} of the replications no past of a tip was found that fits what was seen, so the tip was taken as sound now. By the values of the scenario it could hardly have lasted so long unflagged: look at its lives.`,
  ];
}

/** Text for the terminal: ways to go on, sessions, and the answer last. */
export function midwayText(result: MidwayResult, styles: Styles, columns?: number): string {
  const sessions = sessionsInShort(result);
  const run = `${numberText(result.replications)} replications from ${result.now.clock} on by “${result.strategy}”`;
  const tables = [
    { title: 'Ways to go on, counted from now', table: waysInShort(result) },
    ...(sessions.rows.length === 0
      ? []
      : [{ title: `Chance to be finished, ${result.strategies[0].name}`, table: sessions }]),
  ];
  const warnings = warningsOf(result);
  return answerText({ record: result, run, tables, warnings, answer: answerOf(result) }, styles, columns);
}
