import { FEW_EVENTS } from '../../survival/compare-distributions.js';
import type { ReadLog } from './read-log.js';
import type { TipRow } from './rows.js';
import type { CauseFit, KindFit, LogNext } from './results.js';
import { counted } from '../../wording/phrases.js';
import { causeTitle } from './report-words.js';
import { countedIn } from './words.js';

/** An interval whose ends differ by this factor is good enough for most plans (common practice, no source). */
const NARROW = 1.5;

/** What would narrow what is known: the causes by the width of their median life, the widest first, then what the table itself lacks. */
export function logNext(log: ReadLog, kinds: readonly KindFit[]): readonly LogNext[] {
  const causes = kinds.flatMap(({ causes: fits }) => fits).map(causeNext);
  const wide = causes.filter(({ ratio }) => ratio === null || ratio > NARROW);
  return [...wide.sort((a, b) => (b.ratio ?? Infinity) - (a.ratio ?? Infinity)), ...tableNext(log)];
}

/** The standard error of a log life falls with the root of the number of events, so the interval halves with four times as many. */
function causeNext({ kind, cause, events, median, suspicion, per }: CauseFit): LogNext {
  const ratio = median === null || median.low === null || median.high === null ? null : median.high / median.low;
  const some =
    events < FEW_EVENTS
      ? `${counted(FEW_EVENTS - events, 'more event')} at least`
      : `${3 * events} more events halve the interval`;
  const bounds = suspicion === null ? '' : `; say what ${counted(suspicion.tips, 'suspected tip')} had`;
  return {
    what: `${causeTitle({ kind, cause })}, per ${per}`,
    kind,
    cause,
    ratio,
    advice: `${some} (${counted(events, 'event')} now); use tips until they fail, and write down ${countedIn(per)}${bounds}`,
  };
}

function tableNext({ columns, rows, faults }: ReadLog): readonly LogNext[] {
  const found: LogNext[] = [];
  const add = (what: string, advice: string) => found.push({ what, kind: null, cause: null, ratio: null, advice });
  if (Object.keys(columns.sound).length === 0)
    add(
      'last known sound use',
      'a column with the use at the last look that found the tip sound; without it lifetimes come out too long',
    );
  if (columns.load === null)
    add('load', 'a column with the load, and tips used at two loads or more: how life falls with load');
  else if (isOne(rows, ({ load }) => load)) add('load', 'tips used at another load too: how life falls with load');
  if (columns.pace === null || isOne(rows, ({ pace }) => pace))
    add(
      'pace',
      'a column with the pace (1 is the usual one), and tips used at another pace too: how life falls with hurry',
    );
  const suspected = rows.filter(({ ending }) => ending.suspected).length;
  if (suspected > 0)
    add('suspicion', `look at ${counted(suspected, 'tip')} taken off on suspicion and write the cause, or “sound”`);
  const refused = faults.filter(({ severity }) => severity === 'row').length;
  if (refused > 0) add('rows that cannot be used', `put right what is said of ${counted(refused, 'row')}`);
  return found;
}

function isOne(rows: readonly TipRow[], value: (row: TipRow) => number | null): boolean {
  return new Set(rows.map(value)).size < 2;
}
