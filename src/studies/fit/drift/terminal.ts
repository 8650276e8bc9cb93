import type { DriftFitSummary } from './results.js';
import { numberText, SHARE } from '../../../wording/numbers.js';
import { answerText } from '../../../report/answer.js';
import type { Styles } from '../../../report/styles.js';
import { withBlock } from '../terminal.js';
import { driftTable } from './tables.js';
import { driftAnswer, timeText } from './words.js';

/** What the terminal shows of a fit of drift; where all is asked for, last what to paste. */
export function driftFitText(
  summary: DriftFitSummary,
  drift: string,
  styles: Styles,
  columns?: number,
  isVerbose?: boolean,
): string {
  const { log, kinds, settling, confidence } = summary;
  const table = driftTable(summary);
  const text = answerText(
    {
      title: `Drift in ${log.file}`,
      about: `${numberText(log.used)} of ${numberText(log.rows)} rows, settling time ${timeText(settling)}, ${numberText(confidence.level, SHARE)} intervals`,
      answer: driftAnswer(summary),
      tables: table.rows.length === 0 ? [] : [{ title: 'What was fitted', table }],
      warnings: [...summary.warnings, ...kinds.flatMap((fit) => fit.warnings)],
    },
    styles,
    columns,
    isVerbose,
  );
  return withBlock(text, drift, styles, isVerbose);
}
