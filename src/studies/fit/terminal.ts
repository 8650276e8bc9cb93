import type { FitSummary } from './results.js';
import { distributionName, unitText } from './words.js';
import { numberText, plainSpaces, SHARE } from '../../wording/numbers.js';
import { answerText, type TerminalTable } from '../../report/answer.js';
import type { Styles } from '../../report/styles.js';
import { capital } from '../../wording/phrases.js';
import {
  allCauses,
  causeTitle,
  chosenDistribution,
  fitAnswer,
  goodnessText,
  intervalText,
  updatedText,
} from './report-words.js';

/** What the terminal shows of a fit; where all is asked for, notes on each cause too, and last what to paste. */
export function fitText(
  summary: FitSummary,
  hazards: string,
  styles: Styles,
  columns?: number,
  isVerbose?: boolean,
): string {
  const { log, seed, confidence } = summary;
  const answer = fitAnswer(summary);
  const notes = allCauses(summary).flatMap((fit) =>
    fit.warnings.map((warning) => `${capital(causeTitle(fit))}: ${warning}.`),
  );
  const text = answerText(
    {
      title: `Tip lifetimes in ${log.file}`,
      about: `${numberText(log.used)} of ${numberText(log.rows)} rows, seed ${seed}, ${numberText(confidence.level, SHARE)} intervals`,
      answer: { ...answer, findings: [...answer.findings, ...notes] },
      tables: [hazardsTable(summary), ...(summary.blunting.length === 0 ? [] : [wearTable(summary)])],
      warnings: summary.warnings,
    },
    styles,
    columns,
    isVerbose,
  );
  return withBlock(text, hazards, styles, isVerbose);
}

/** With what to paste behind it, where all is asked for. */
export function withBlock(text: string, block: string, styles: Styles, isVerbose = false): string {
  return isVerbose
    ? `${text}\n${styles.quiet('# to paste into a scenario; --into FILE writes it there')}\n${block}`
    : text;
}

function hazardsTable(summary: FitSummary): TerminalTable {
  return {
    title: 'Hazards',
    table: {
      columns: [
        { label: 'hazard' },
        { label: 'events', numeric: true },
        { label: 'distribution', numeric: true },
        { label: 'median, log alone', numeric: true },
        { label: 'interval', numeric: true },
        { label: 'goodness', numeric: true },
      ],
      rows: allCauses(summary).map((fit) => {
        const distribution = chosenDistribution(fit);
        return [
          causeTitle(fit),
          `${String(fit.events)} of ${String(fit.tips)}`,
          fit.posterior !== null
            ? updatedText(fit.posterior)
            : distribution === undefined
              ? 'none'
              : distributionName(distribution.distribution),
          fit.median === null ? '' : plainSpaces(numberText(fit.median.value, { divisor: 1, unit: unitText(fit.per) })),
          fit.median === null ? '' : plainSpaces(intervalText(fit.median)),
          goodnessText(fit),
        ];
      }),
    },
  };
}

function wearTable({ blunting }: FitSummary): TerminalTable {
  return {
    title: 'Tip wear',
    table: {
      columns: [{ label: 'parameter' }, { label: 'value', numeric: true }, { label: 'interval', numeric: true }],
      rows: blunting.flatMap(({ kind, coefficient, coefficientGeometricSd, radius, radiusGeometricSd }) =>
        [
          [`wear coefficient of ${kind}, nm³/(nN mm)`, coefficient] as const,
          ['  geometric standard deviation over tips', coefficientGeometricSd] as const,
          [`new radius of ${kind}, nm`, radius] as const,
          ['  geometric standard deviation over tips', radiusGeometricSd] as const,
        ].map(([name, interval]) => [
          name,
          plainSpaces(numberText(interval.value)),
          plainSpaces(intervalText(interval)),
        ]),
      ),
    },
  };
}
