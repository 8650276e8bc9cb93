import type { DriftFitSummary } from '../../../study/fit/drift/results.js';
import { numberText, SHARE } from '../../format.js';
import { block, PAGE_WIDTH, spaced, wrapped } from '../../terminal-columns.js';
import type { Styles } from '../../terminal.js';
import { plainText } from '../../text.js';
import { driftTable } from './tables.js';
import { resultSentences, timeText } from './words.js';

/** What the terminal shows of a fit of drift; what to paste comes last, under a line of its own. */
export function driftFitText(summary: DriftFitSummary, drift: string, styles: Styles, columns = PAGE_WIDTH): string {
  const width = Math.min(columns, PAGE_WIDTH);
  const { log, kinds } = summary;
  const lines = (text: string) => wrapped(plainText(text), width);
  const [first, ...rest] = resultSentences(summary).map(lines);
  const warnings = [...summary.warnings, ...kinds.flatMap((fit) => fit.warnings)];
  const table = tableOf(summary);
  const parts = [
    styles.strong(lines(`Drift in ${log.file}`)),
    styles.quiet(
      lines(
        `${numberText(log.used)} of ${numberText(log.rows)} rows, settling time ${timeText(summary.settling)}, ${numberText(summary.confidence.level, SHARE)} intervals`,
      ),
    ),
    ...(table === '' ? [] : [table]),
    ...warnings.map((text) => styles.warning(lines(`Warning: ${text}`))),
    [styles.strong(first), ...rest].join('\n'),
    styles.quiet('# to paste into a scenario; --into FILE writes it there'),
  ];
  return `${parts.join('\n\n')}\n${drift}`;
}

function tableOf(summary: DriftFitSummary): string {
  const { columns, rows } = driftTable(summary);
  const head = columns.map(({ label }) => label.toLowerCase());
  return rows.length === 0
    ? ''
    : block(
        head,
        rows.map((cells) => cells.map(spaced)),
        1,
        2,
      );
}
