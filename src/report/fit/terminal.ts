import type { CauseFit, FitSummary } from '../../study/fit/results.js';
import { lawName, unitText } from '../../study/fit/words.js';
import { numberText, SHARE } from '../format.js';
import { block, fits, PAGE_WIDTH, spaced, wrapped } from '../terminal-columns.js';
import type { Styles } from '../terminal.js';
import { plainText } from '../text.js';
import { allCauses, causeTitle, chosenLaw, goodnessText, intervalText, resultSentences } from './words.js';

/** What the terminal shows of a fit; the hazards to paste come last, under a line of their own. */
export function fitText(summary: FitSummary, hazards: string, styles: Styles, columns = PAGE_WIDTH): string {
  const width = Math.min(columns, PAGE_WIDTH);
  const { log } = summary;
  const [first, ...rest] = resultSentences(summary).map((text) => wrapped(plainText(text), width));
  const notes = allCauses(summary).flatMap((fit) =>
    fit.warnings.map((warning) => styles.warning(wrapped(`${causeTitle(fit)}: ${plainText(warning)}`, width))),
  );
  const parts = [
    styles.strong(wrapped(`Tip lives in ${plainText(log.file)}`, width)),
    styles.quiet(
      wrapped(
        `${numberText(log.used)} of ${numberText(log.rows)} rows, seed ${plainText(summary.seed)}, ${numberText(summary.confidence.level, SHARE)} intervals`,
        width,
      ),
    ),
    table(summary, width),
    ...(summary.blunting.length === 0 ? [] : [radii(summary)]),
    ...[...summary.warnings.map((text) => styles.warning(wrapped(`Warning: ${plainText(text)}`, width))), ...notes],
    [styles.strong(first), ...rest].join('\n'),
    styles.quiet('# to paste into a scenario; --into FILE writes it there'),
  ];
  return `${parts.join('\n\n')}\n${hazards}`;
}

function table(summary: FitSummary, width: number): string {
  const rows = allCauses(summary);
  const head = ['hazard', 'events', 'law', 'median life', 'interval', 'goodness'];
  const drawn = block(head, rows.map(cells), 1, 2);
  if (fits(drawn, width)) return drawn;
  const stacked = rows.flatMap((fit) => {
    const [name, ...values] = cells(fit);
    return [[name], ...values.map((value, place) => [`  ${head[place + 1]}`, value])];
  });
  return block(['hazard', ''], stacked, 1, 2);
}

function cells(fit: CauseFit): readonly string[] {
  const law = chosenLaw(fit);
  return [
    `${causeTitle(fit)}, per ${fit.per}`,
    `${String(fit.events)} of ${String(fit.tips)}`,
    law === undefined ? 'none' : lawName(law.law),
    fit.median === null ? '' : spaced(numberText(fit.median.value, { divisor: 1, unit: unitText(fit.per) })),
    fit.median === null ? '' : spaced(intervalText(fit.median)),
    goodnessText(fit),
  ];
}

function radii({ blunting }: FitSummary): string {
  const rows = blunting.flatMap(({ kind, coefficient, coefficientSpread, radius, radiusSpread }) =>
    [
      [`wear coefficient of ${kind}, nm3/(nN mm)`, coefficient] as const,
      ['  spread over tips', coefficientSpread] as const,
      [`new radius of ${kind}, nm`, radius] as const,
      ['  spread over tips', radiusSpread] as const,
    ].map(([name, interval]) => [name, spaced(numberText(interval.value)), spaced(intervalText(interval))]),
  );
  return block(['blunting', 'value', 'interval'], rows, 1, 2);
}
