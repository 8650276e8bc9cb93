import { stringify } from 'csv-stringify/sync';
import { MEASURES, type Measure } from '../execution/measures.js';
import { type ComparisonResult, type ImageDriftSummary, isShare, type Summary } from '../analysis/results.js';
import { plainText } from './text.js';

/** Units stand in the header, so that a column means the same wherever it is opened. */
export function measureHeader(measure: Measure, currency: string): string {
  const seconds: readonly Measure[] = [
    'totalTime',
    'instrumentTime',
    'operatorTime',
    'benchTime',
    'overrun',
    'confirmedAt',
  ];
  const name = measure.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
  if (seconds.includes(measure)) return `${name} (s)`;
  if (isShare(measure)) return `${name} (share)`;
  return measure === 'cost' ? `${name} (${plainText(currency)})` : `${name} (number)`;
}

type Cell = string | number;

/**
 * RFC 4180. User text that a spreadsheet would take for a formula is put behind an apostrophe, also where it would part
 * cells at semicolons (OWASP, "CSV Injection"). Numbers stay numbers.
 */
export function csv(rows: readonly (readonly Cell[])[]): string {
  const cells = rows.map((row) => row.map((cell) => (typeof cell === 'string' ? withoutFormulas(cell) : cell)));
  return stringify(cells, { escape_formulas: true, record_delimiter: 'windows' });
}

function withoutFormulas(text: string): string {
  return text.replace(/([;|\t]\s*)(?=[=+@-])/gu, "$1'");
}

/** Rows that are put together before they are handed on. */
const ROWS = 1000;

/**
 * `replications.csv`: a row for each replication and strategy, in parts to be written one after the other, as the whole may
 * be longer than a text can be.
 */
export function* replicationsCsv({ summary, replications }: ComparisonResult): Generator<string> {
  yield csv([
    [
      'replication',
      'strategy',
      ...MEASURES.map((measure) => measureHeader(measure, summary.scenario.currency)),
      'finished',
      'finished at (s)',
    ],
  ]);
  const named = new Map(summary.strategies.map(({ name }) => [name, csv([[plainText(name)]]).slice(0, -2)]));
  let rows = 0;
  let text = '';
  for (const { replication, strategy, measures, finished, finishedAt } of replications) {
    text += `${replication},${named.get(strategy) ?? ''}`;
    for (const measure of MEASURES) text += `,${measures[measure]}`;
    text += `,${finished ? 'yes' : 'no'},${finishedAt ?? ''}\r\n`;
    rows += 1;
    if (rows % ROWS > 0) continue;
    yield text;
    text = '';
  }
  if (text !== '') yield text;
}

/** `images.csv`: a row for each image of the plan and strategy, over all replications, in parts as it may be long. */
export function* imagesCsv(summary: Summary): Generator<string> {
  const drifts = summary.strategies.some(({ badScans }) => badScans !== undefined);
  yield csv([
    [
      'strategy',
      'image',
      'sample',
      'region',
      'pass',
      'quality (mean)',
      'good (share)',
      'undetected bad (share)',
      'given up (share)',
      'missing (share)',
      'attempts (mean)',
      ...(drifts ? ['q_drift of the kept attempt (mean)', 'bad by drift alone (mean)', 'bad otherwise (mean)'] : []),
    ],
  ]);
  for (const strategy of summary.strategies) {
    const name = plainText(strategy.name);
    for (let from = 0; from < strategy.images.length; from += ROWS)
      yield csv(
        strategy.images
          .slice(from, from + ROWS)
          .map((image) => [
            name,
            image.image,
            image.sample,
            image.region,
            plainText(image.pass),
            image.quality,
            image.good,
            image.undetectedBad,
            image.givenUp,
            image.missing,
            image.takes,
            ...(drifts ? driftCells(image.drift) : []),
          ]),
      );
  }
}

/** Empty where a strategy has no drift though another has, and the factor where nothing was kept. */
function driftCells(drift: ImageDriftSummary | undefined): readonly Cell[] {
  if (drift === undefined) return ['', '', ''];
  return [drift.factor ?? '', drift.badScans.byDrift, drift.badScans.otherwise];
}
