import { EXPOSURE_UNITS, type ExposureUnit } from '../../scenario/exposure.js';
import type { Place } from '../../scenario/places.js';
import { suggestion } from '../../scenario/nearest.js';
import { show } from '../../scenario/show.js';
import { type Notation, notationOf, readAmount } from './amounts.js';
import { type Columns, type NumberColumn, readColumns } from './columns.js';
import { latestDate } from './dates.js';
import { withoutDoubles } from './doubles.js';
import { readEnding, wordsOf } from './endings.js';
import { headOf, roleOf } from './heads.js';
import { layOut, totalText } from './layout.js';
import { type ByExposure, type LogFault, type ReadTable, type TableReading, type TipRow, WordsRead } from './rows.js';
import { readSheet, type SheetRow, type TableSource, textAt } from '../../analysis/sheet.js';
import type { ColumnOptions } from './taken.js';
import { isMissing } from '../../analysis/missing.js';

export interface ReadLog extends ReadTable<TipRow> {
  readonly columns: Columns;
}

/** What the user says of a log beside its columns. */
export interface LogOptions extends ColumnOptions {
  /** The kind of every tip, for a log that does not say it. */
  readonly kind: string | null;
  /** Kinds that go by another name, by what the log calls them; an empty name leaves tips of that kind out. */
  readonly kinds: ReadonlyMap<string, string>;
  /** What words of the log mean that ended a tip, as the program calls it. */
  readonly endings: ReadonlyMap<string, string>;
}

/** The kind of tips where neither log nor user names one. */
export const ONLY_KIND = 'tip';

/** Reads a log; what cannot be used is said with its place, row by row. */
export function readLog(table: TableSource, options: LogOptions): TableReading<ReadLog> {
  const sheet = readSheet(table);
  if (!sheet.ok) return sheet;
  const found = layOut(sheet.sheet, knownHeads(options.columns));
  if (!found.ok) return found;
  const { head, rows, totals } = found.layout;
  const columns = readColumns(head, options);
  if (!columns.ok) return columns;
  const reader = new RowReader(columns.columns, rows, options);
  const read = rows.flatMap((row, index) => reader.read(row, index) ?? []);
  const unknown = [...options.kinds.keys()].filter((kind) => !reader.renamed.has(kind.toLowerCase()));
  if (unknown.length > 0) {
    const kinds = [...new Set(read.map(({ kind }) => kind))];
    const message = (kind: string) => `--tip ${kind}=…: the log has no tip of this kind${suggestion(kind, kinds)}`;
    return { ok: false, faults: unknown.map((kind) => ({ ...head.place, message: message(kind) })) };
  }
  const { kept, faults } = withoutDoubles(read.filter(({ kind }) => kind !== ''));
  return {
    ok: true,
    log: {
      columns: columns.columns,
      rowCount: rows.length + totals.length,
      rows: kept,
      leftOut: read.filter(({ kind }) => kind === '').length + totals.length,
      faults: [
        ...reader.faults,
        ...faults,
        ...totals.map((row): LogFault => ({ ...row.place, severity: 'note', message: totalText(row) })),
      ].sort((a, b) => a.line - b.line || a.column - b.column),
      readAs: reader.readAs.all,
      lastDate: latestDate(rows.map(({ cells }) => textAt(cells, columns.columns.date))),
    },
  };
}

/** Whether a head says what its column holds: of itself, or because the user says so. */
export function knownHeads(columns: ColumnOptions['columns']): (text: string) => boolean {
  const named = new Set([...columns.values()].map((text) => headOf(text).name));
  return (text) => named.has(headOf(text).name) || roleOf(headOf(text)) !== null;
}

class RowReader {
  readonly faults: LogFault[] = [];
  readonly readAs = new WordsRead();
  /** Kinds of the options that some row has, in lower case. */
  readonly renamed = new Set<string>();
  readonly #notation: Notation;
  readonly #kinds = new Map<string, string>();

  readonly #endings: ReadonlyMap<string, string>;

  constructor(
    readonly columns: Columns,
    rows: readonly SheetRow[],
    readonly options: LogOptions,
  ) {
    this.#endings = wordsOf(options.endings);
    const numbers = this.#numberColumns().map(({ index }) => index);
    this.#notation = notationOf(rows.flatMap(({ cells }) => numbers.map((index) => textAt(cells, index))));
  }

  #numberColumns(): readonly NumberColumn[] {
    const { use, entry, sound, load, pace } = this.columns;
    const all = [...Object.values(use), ...Object.values(entry), ...Object.values(sound)];
    return [...all, ...(load === null ? [] : [load]), ...(pace === null ? [] : [pace])];
  }

  /** Null where the row cannot be used, which is then said. */
  read(row: SheetRow, index: number): TipRow | null {
    const problems: (Place & { message: string })[] = [];
    const refuse = (place: Place, message: string): null => {
      problems.push({ ...place, message });
      return null;
    };
    const amount = (column: NumberColumn | null | undefined): number | null => {
      const cell = column === null || column === undefined ? undefined : row.cells.at(column.index);
      if (column === null || column === undefined || cell === undefined || isMissing(cell.text)) return null;
      const reading = readAmount(column.measure, cell.text, column.factor, this.#notation);
      return reading.ok ? reading.value : refuse(cell.place, `${show(column.header)}: ${reading.message}`);
    };
    const amounts = (by: Columns['use']): ByExposure =>
      Object.fromEntries(
        EXPOSURE_UNITS.flatMap((unit) => {
          const value = amount(by[unit]);
          return value === null ? [] : [[unit, value]];
        }),
      );
    const { columns } = this;
    const use = amounts(columns.use);
    const entry = amounts(columns.entry);
    const sound = amounts(columns.sound);
    const load = amount(columns.load);
    const pace = amount(columns.pace);
    const endCell = row.cells.at(columns.ended);
    const ending = readEnding(endCell?.text ?? '', this.#endings);
    if (!ending.ok) refuse(endCell?.place ?? row.place, ending.message);
    const placeOf = (column: NumberColumn | undefined) => row.cells.at(column?.index ?? 0)?.place ?? row.place;
    if (problems.length === 0) {
      if (Object.values(use).every((value) => value === 0))
        refuse(
          row.place,
          `${Object.keys(use).length === 0 ? 'no use is given' : 'the tip was not used'}; a row wants ${listOfUse(columns)} above zero`,
        );
      for (const unit of EXPOSURE_UNITS)
        checkOrder(unit, { use, entry, sound }, (message, of) => refuse(placeOf(columns[of][unit]), message));
      if (load === 0 || pace === 0)
        refuse(
          placeOf((load === 0 ? columns.load : columns.pace) ?? undefined),
          `a ${load === 0 ? 'load' : 'pace'} above zero is wanted`,
        );
    }
    if (problems.length > 0 || !ending.ok) {
      this.faults.push(...problems.map((problem) => ({ ...problem, severity: 'row' as const })));
      return null;
    }
    if (ending.meant !== null) this.readAs.note(endCell?.text ?? '', ending.meant);
    return {
      place: row.place,
      tip: textAt(row.cells, columns.tip) || `row ${index + 1}`,
      kind: this.#kindOf(textAt(row.cells, columns.kind)),
      use,
      entry,
      sound,
      ending: ending.ending,
      load,
      pace,
    };
  }

  /** As it was first written: `Sharp` and `sharp` are one kind. */
  #kindOf(text: string): string {
    const written = text === '' ? (this.options.kind ?? ONLY_KIND) : text.replace(/\s+/gu, ' ');
    const name = [...this.options.kinds].find(([kind]) => kind.toLowerCase() === written.toLowerCase())?.[1];
    if (name !== undefined) {
      this.renamed.add(written.toLowerCase());
      if (name !== written) this.readAs.note(written, name === '' ? 'left out, as asked' : name);
      return name;
    }
    const first = this.#kinds.get(written.toLowerCase());
    if (first === undefined) this.#kinds.set(written.toLowerCase(), written);
    else if (first !== written) this.readAs.note(written, first);
    return first ?? written;
  }
}

function listOfUse({ use }: Columns): string {
  return Object.values(use)
    .map(({ header }) => show(header))
    .join(' or ');
}

/** A tip comes under observation before it is last known to be sound, and that before it goes. */
function checkOrder(
  unit: ExposureUnit,
  { use, entry, sound }: Pick<TipRow, 'use' | 'entry' | 'sound'>,
  refuse: (message: string, of: 'entry' | 'sound') => void,
): void {
  const [end, start, last] = [use[unit], entry[unit], sound[unit]];
  if (end === undefined || end === 0) return;
  if (start !== undefined && start > end)
    refuse(
      `the use at entry, ${show(start)}, is beyond the use at the end, ${show(end)}; both count from the new tip`,
      'entry',
    );
  else if (last !== undefined && last > end)
    refuse(`the last sound use, ${show(last)}, is beyond the use at the end, ${show(end)}`, 'sound');
  else if (last !== undefined && start !== undefined && last < start)
    refuse(`the last sound use, ${show(last)}, is before the use at entry, ${show(start)}`, 'sound');
}
