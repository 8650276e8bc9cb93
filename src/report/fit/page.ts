import type { FitSummary } from '../../study/fit/results.js';
import { numberText, SHARE } from '../format.js';
import { picturesSection, studyPage } from '../page.js';
import { cautionsSection, howComputedSection } from '../page/method.js';
import { verdictBox } from '../page/verdict.js';
import { htmlTable } from '../table.js';
import { capital, html, plainText } from '../text.js';
import { citation, fitFacts, INTRO } from './method.js';
import { codeHtml, logSection, optional, pasteSection, sayAgain, section } from './parts.js';
import { accelerationTable, bluntingTable, fitsTable, lawsTable, logNextTable, suspicionTable } from './tables.js';
import { allCauses, causeTitle, resultSentences } from './words.js';

/** `report.html` of a fit, from what came out down to the rows that were not used. */
export function fitPage(summary: FitSummary, figures: readonly string[], block: string): string {
  const { log } = summary;
  const level = numberText(summary.confidence.level, SHARE);
  return studyPage({
    kicker: 'Hazards of tips from a log of their lives',
    record: {
      tool: summary.tool,
      seed: summary.seed,
      scenario: { title: `Tip lives in ${log.file}`, about: null, file: log.file },
    },
    facts: [
      ['Rows', `${numberText(log.used)} used of ${numberText(log.rows)}`],
      ['Kinds', summary.kinds.map(({ kind, tips }) => `${kind} (${numberText(tips)})`).join(', ')],
      ['Hazards', numberText(allCauses(summary).length)],
      ...(log.date === null ? [] : [['Date of the log', log.date] as const]),
    ],
    sections: [
      verdictBox({
        label: 'Result',
        decided: allCauses(summary).some(({ hazard }) => hazard !== null),
        sentences: resultSentences(summary).map((sentence) => codeHtml(sentence)),
        warnings: summary.warnings.map(sayAgain),
      }),
      section('hazards', 'Hazards', [
        htmlTable(fitsTable(summary), `The law taken for each cause, with ${level} intervals; the other causes censor`),
        verdicts(summary),
      ]),
      picturesSection(figures),
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
        'Blunting from measured radii',
        bluntingTable(summary),
        `Archard’s law, medians and geometric standard deviations over tips with ${level} intervals`,
      ),
      optional(
        'next',
        'What to log next',
        logNextTable(summary),
        'The causes whose median life is known worst, then what the table itself lacks',
      ),
      pasteSection('hazards.yaml', block),
      section('laws', 'All laws', [htmlTable(lawsTable(summary), 'Every law that was tried, in order of AIC')]),
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

/** What is said of each law, and of which the reader should beware. */
function verdicts(summary: FitSummary): string {
  const items = allCauses(summary).map((fit) => {
    const warned = fit.warnings.map((warning) => `<br><strong>Note:</strong> ${codeHtml(warning)}.`);
    return `<li><strong>${html(capital(causeTitle(fit)))}.</strong> ${codeHtml(fit.verdict)}${warned.join('')}</li>`;
  });
  return `<ul class="plain">${items.join('\n')}</ul>`;
}
