import type { FitSummary } from './results.js';
import { numberText, SHARE } from '../../wording/numbers.js';
import { picturesSection, studyPage } from '../../report/page.js';
import { cautionsSection, howComputedSection } from '../../report/page/method.js';
import { answerBox, findingsSection } from '../../report/answer.js';
import { htmlTable } from '../../report/table.js';
import { capital } from '../../wording/phrases.js';
import { html, plainText } from '../../report/text.js';
import { citation, fitFacts, INTRO } from './method.js';
import { codeHtml, logSection, optional, pasteSection, sayAgain, section } from './parts.js';
import {
  accelerationTable,
  bluntingTable,
  fitsTable,
  distributionsTable,
  logNextTable,
  suspicionTable,
} from './tables.js';
import { allCauses, causeTitle, fitAnswer } from './report-words.js';

/** `report.html` of a fit, from what came out down to the rows that were not used. */
export function fitPage(summary: FitSummary, figures: readonly string[], block: string): string {
  const { log } = summary;
  const level = numberText(summary.confidence.level, SHARE);
  const answer = fitAnswer(summary);
  return studyPage({
    kicker: 'Hazards of tips from a log of their lifetimes',
    record: {
      tool: summary.tool,
      seed: summary.seed,
      scenario: { title: `Tip lifetimes in ${log.file}`, about: null, file: log.file },
    },
    facts: [
      ['Rows', `${numberText(log.used)} used of ${numberText(log.rows)}`],
      ['Kinds', summary.kinds.map(({ kind, tips }) => `${kind} (${numberText(tips)})`).join(', ')],
      ['Hazards', numberText(allCauses(summary).length)],
      ...(log.date === null ? [] : [['Date of the log', log.date] as const]),
    ],
    sections: [
      answerBox(answer, summary.warnings.map(sayAgain), 'Result'),
      section('hazards', 'Hazards', [
        htmlTable(
          fitsTable(summary),
          `The distribution taken for each cause, with ${level} intervals; the other causes censor`,
        ),
        verdicts(summary),
      ]),
      picturesSection(figures),
      findingsSection(answer),
      optional(
        'load-and-pace',
        'What load and pace do',
        accelerationTable(summary),
        'Exponents of accelerated-failure-time regression: exposure grows by pace^α · (load / reference load)^β',
      ),
      optional(
        'suspicion',
        'Taken off on suspicion',
        suspicionTable(summary),
        'Both bounds: these tips counted as sound, and as ended by the cause. In a log, write the cause once it is known, or sound',
      ),
      optional(
        'blunting',
        'Tip wear from measured radii',
        bluntingTable(summary),
        `Archard’s law, medians and geometric standard deviations over tips with ${level} intervals`,
      ),
      optional(
        'next',
        'What to log next',
        logNextTable(summary),
        'The causes whose median lifetime is known worst, then what the table itself lacks',
      ),
      pasteSection('hazards.yaml', block),
      section('distributions', 'All distributions', [
        `<details><summary>Every distribution that was tried</summary>\n${htmlTable(distributionsTable(summary), 'In order of AIC')}\n</details>`,
      ]),
      logSection(summary.log),
      cautionsSection({ cautions: [] }),
      howComputedSection({
        intro: INTRO,
        facts: fitFacts(summary),
        command: summary.command,
        cite: citation(summary, plainText),
      }),
    ],
  });
}

/** What is said of each distribution, and of which the reader should beware. */
function verdicts(summary: FitSummary): string {
  const items = allCauses(summary).map((fit) => {
    const warned = fit.warnings.map((warning) => `<br><strong>Note:</strong> ${codeHtml(warning)}.`);
    return `<li><strong>${html(capital(causeTitle(fit)))}.</strong> ${codeHtml(fit.verdict)}${warned.join('')}</li>`;
  });
  return `<ul class="plain">${items.join('\n')}</ul>`;
}
