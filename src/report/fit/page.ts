import type { FitSummary } from '../../study/fit/results.js';
import { numberText, SHARE } from '../format.js';
import { picturesSection, studyPage } from '../page.js';
import { cautionsSection, howComputedSection } from '../page/method.js';
import { verdictBox } from '../page/verdict.js';
import { htmlTable, type Table } from '../table.js';
import { html, plainText, unbroken } from '../text.js';
import { citation, fitFacts, INTRO } from './method.js';
import {
  accelerationTable,
  bluntingTable,
  columnsTable,
  fitsTable,
  lawsTable,
  logNextTable,
  readAsTable,
  rowsTable,
  suspicionTable,
} from './tables.js';
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
      section('paste', 'To paste into a scenario', [
        '<p>The same as <code>hazards.yaml</code>. <code>--into FILE</code> writes it there, comments kept. The covariances are of the logs of the values; a comparison draws from them.</p>',
        `<pre tabindex="0"><code>${preformatted(block)}</code></pre>`,
      ]),
      section('laws', 'All laws', [htmlTable(lawsTable(summary), 'Every law that was tried, in order of AIC')]),
      section('log', 'The log as it was read', [
        htmlTable(columnsTable(summary), 'Columns'),
        ...(log.readAs.length === 0 ? [] : [htmlTable(readAsTable(summary), 'Words that were read as others')]),
        log.notUsed.length === 0
          ? '<p>Every row could be used.</p>'
          : htmlTable(rowsTable(summary), 'Rows that could not be used'),
      ]),
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

function section(id: string, title: string, parts: readonly string[]): string {
  return `<section aria-labelledby="${id}">
<h2 id="${id}">${html(title)}</h2>
${parts.join('\n')}
</section>`;
}

/** Nothing where the table has no rows. */
function optional(id: string, title: string, table: Table, caption: string): string {
  return table.rows.length === 0 ? '' : section(id, title, [htmlTable(table, caption)]);
}

/** What is said of each law, and of which the reader should beware. */
function verdicts(summary: FitSummary): string {
  const items = allCauses(summary).map((fit) => {
    const warned = fit.warnings.map((warning) => `<br><strong>Note:</strong> ${codeHtml(warning)}.`);
    return `<li><strong>${html(causeTitle(fit).replace(/^./u, (first) => first.toUpperCase()))}.</strong> ${codeHtml(fit.verdict)}${warned.join('')}</li>`;
  });
  return `<ul class="plain">${items.join('\n')}</ul>`;
}

/** Words in backticks become code. */
function codeHtml(text: string): string {
  return html(unbroken(text)).replace(/`([^`]*)`/gu, '<code>$1</code>');
}

function sayAgain(warning: string): string {
  return `${warning.replace(/^./u, (first) => first.toUpperCase())}.`;
}

/** Text whose line breaks and indents count. */
function preformatted(text: string): string {
  return text
    .trimEnd()
    .split('\n')
    .map((line) => `${/^ */u.exec(line)?.[0] ?? ''}${html(line)}`)
    .join('\n');
}
