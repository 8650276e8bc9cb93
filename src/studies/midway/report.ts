import type { TerminalTable } from '../../report/answer.js';
import { numberText, SHARE } from '../../wording/numbers.js';
import { planFacts } from '../../report/page.js';
import { answerReport } from '../../report/report.js';
import { htmlTable } from '../../report/table.js';
import { html } from '../../report/text.js';
import { MIDWAY_CHARTS } from './charts.js';
import type { MidwayResult } from './results.js';
import { runSheetMarkdown, runSheetPage } from './run-sheet.js';
import { sessionsInShort, sessionsTable, standingTable, waysInShort, waysTable } from './tables.js';
import { answerOf, INSTRUMENT_TIME, PRESUMED } from './words.js';

export const midwayReport = answerReport<MidwayResult>({
  files: { 'run-sheet.html': runSheetPage, 'run-sheet.md': runSheetMarkdown },
  charts: () => MIDWAY_CHARTS,
  shown: (result) => {
    const { now, confidence, assumed } = result;
    const run = `${numberText(result.replications)} replications`;
    return {
      kicker: `The rest of a campaign under way, from ${now.clock}`,
      facts: [['Strategy', result.strategy], ...planFacts(result.scenario, result.allocation)],
      answer: answerOf(result),
      warnings: warningsOf(result),
      run,
      terminal: { run: `${run} from ${now.clock} on by “${result.strategy}”`, tables: () => tables(result) },
      above: [waysSection(result)],
      below: [
        `<section aria-labelledby="standing">
<h2 id="standing">How it stands</h2>
${htmlTable(standingTable(result), `As read from ${result.state.file}`)}
</section>`,
        `<section aria-labelledby="presumed">
<h2 id="presumed">What is presumed of the past</h2>
<ul class="plain">${PRESUMED.map((text) => `<li>${html(text)}</li>`).join('\n')}</ul>
</section>`,
      ],
      intro:
        'Each replication first draws what is hidden of the campaign as it stands, then plays the rest of the plan, scan by scan, once for each way to go on. All ways meet the same hidden state and common random numbers, so their differences are paired.',
      method: [
        ['Replications', `${numberText(result.replications)} of every way to go on; ${result.stopping}`],
        [
          'Intervals',
          `${numberText(confidence.level, SHARE)}, two-sided; chances by Clopper and Pearson. Differences are widened by Bonferroni over ${numberText(confidence.comparisons)} comparisons.`,
        ],
        [
          'Assumed',
          `${numberText(assumed.values)} of ${numberText(assumed.of)} values have no source; compare lists them all and tries their ranges.`,
        ],
      ],
      rest: 'The sheet for the instrument is `run-sheet.html`, to be printed, and `run-sheet.md`; all numbers are in `summary.json`',
    };
  },
});

/** Ways to go on, and sessions where there are any. */
function tables(result: MidwayResult): readonly TerminalTable[] {
  const sessions = sessionsInShort(result);
  return [
    { title: 'Ways to go on, counted from now', table: waysInShort(result) },
    ...(sessions.rows.length === 0
      ? []
      : [
          { title: `Probability of completion, ${result.strategies[0].name}`, table: sessions, isAlong: true as const },
        ]),
  ];
}

function waysSection(result: MidwayResult): string {
  const sessions = sessionsTable(result);
  const bySession =
    sessions.rows.length === 0 ? '' : `\n<h3>By session</h3>\n${htmlTable(sessions, 'Probability of completion')}`;
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
    `In ${numberText(guessed, SHARE)} of the replications no past of a tip was found that fits what was seen, so the tip was taken as sound now. By the values of the scenario it could hardly have lasted so long unflagged: look at its lifetimes.`,
  ];
}
