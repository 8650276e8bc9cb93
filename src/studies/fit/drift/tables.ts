import type { DriftFitSummary, OverDisturbances } from './results.js';
import { numberText } from '../../../wording/numbers.js';
import type { Table } from '../../../report/table.js';
import { errorName, errorScale, parameterRows, rateText, type Shown } from './words.js';

/** What was fitted, a row a value. */
export function driftTable(summary: DriftFitSummary): Table {
  return {
    columns: [{ label: 'Drift' }, { label: 'Value', numeric: true }, { label: 'Interval', numeric: true }],
    rows: summary.kinds.flatMap(({ kind, parameters, notTold }) => {
      if (parameters === null) return [];
      const { rate, geometricSd, decay, steady, error } = parameterRows({ parameters, notTold }, errorScale(summary));
      return [
        row(`after ${kind}: rate right after`, rate),
        row(`after ${kind}: geometric SD of the rate`, geometricSd),
        row(`after ${kind}: time to 1/e`, decay),
        row(`after ${kind}: steady rate`, steady),
        row(`after ${kind}: ${errorName(summary)}`, error),
      ];
    }),
  };
}

function row(name: string, { value, interval }: Shown): readonly string[] {
  return [name, value, interval];
}

export function settledTable({ kinds }: DriftFitSummary): Table {
  const range = ({ least, greatest }: OverDisturbances) => `${rateText(least)} to ${rateText(greatest)}`;
  return {
    columns: [
      { label: 'Disturbance' },
      { label: 'Disturbances read', numeric: true },
      { label: 'Typical average', numeric: true },
      { label: 'Averages', numeric: true },
      { label: 'Typical maximum', numeric: true },
      { label: 'Maxima', numeric: true },
    ],
    rows: kinds.flatMap(({ kind, settled }) =>
      settled === null
        ? []
        : [
            [
              kind,
              numberText(settled.disturbances),
              rateText(settled.typicalAverage.median),
              range(settled.typicalAverage),
              rateText(settled.typicalMaximum.median),
              range(settled.typicalMaximum),
            ],
          ],
    ),
  };
}
