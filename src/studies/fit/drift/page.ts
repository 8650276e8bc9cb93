import type { DriftFitSummary } from './results.js';
import { numberText, SHARE } from '../../../wording/numbers.js';
import { picturesSection, studyPage } from '../../../report/page.js';
import { cautionsSection, howComputedSection } from '../../../report/page/method.js';
import { answerBox, findingsSection } from '../../../report/answer.js';
import { plainText } from '../../../report/text.js';
import { logSection, optional, pasteSection, sayAgain } from '../parts.js';
import { driftCitation, driftFacts, DRIFT_INTRO } from './method.js';
import { driftTable, settledTable } from './tables.js';
import { driftAnswer, timeText } from './words.js';

/** `report.html` of a fit of drift. */
export function driftPage(summary: DriftFitSummary, figures: readonly string[], block: string): string {
  const { log, kinds, tool } = summary;
  const title = `Drift in ${log.file}`;
  const level = numberText(summary.confidence.level, SHARE);
  const answer = driftAnswer(summary);
  return studyPage({
    kicker: 'Drift after disturbances from readings of it',
    record: { tool, seed: null, scenario: { title, about: null, file: log.file } },
    facts: [
      ['Rows', `${numberText(log.used)} used of ${numberText(log.rows)}`],
      ['Disturbances', kinds.map(({ kind, disturbances }) => `${kind} (${numberText(disturbances)})`).join(', ')],
      ['Settling time', timeText(summary.settling)],
      ...(log.date === null ? [] : [['Date of the table', log.date] as const]),
    ],
    sections: [
      answerBox(answer, [...summary.warnings, ...kinds.flatMap(({ warnings }) => warnings)].map(sayAgain), 'Result'),
      picturesSection(figures),
      findingsSection(answer),
      optional(
        'fitted',
        'What was fitted',
        driftTable(summary),
        `Median over disturbances, geometric standard deviation, and what goes with them, with ${level} intervals`,
      ),
      optional(
        'settled',
        'After the settling time',
        settledTable(summary),
        `Drift rates from ${timeText(summary.settling)} on: medians over disturbances, and from the least to the greatest of them`,
      ),
      pasteSection('drift.yaml', block),
      logSection(log),
      cautionsSection({ cautions: [] }),
      howComputedSection({
        intro: DRIFT_INTRO,
        facts: driftFacts(summary),
        command: summary.command,
        cite: driftCitation(summary, plainText),
      }),
    ],
  });
}
