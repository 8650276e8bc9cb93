import { suggestion } from '../../scenario/nearest.js';
import type { Place, TextFault } from '../../scenario/places.js';
import { show } from '../../scenario/show.js';
import { type Cell, readSheet, type SheetRow } from '../../analysis/sheet.js';
import { isMissing } from '../../analysis/missing.js';
import { readWord, type Words } from './state-words.js';
import { NOTE_COLUMN, STATE_COLUMNS, type What, WHATS } from './state-rows.js';

/** One row of the table. */
export interface Entry {
  readonly what: What;
  readonly which: Cell;
  readonly value: Cell;
  readonly takes: Cell;
  /** From 0. */
  readonly instrument: number;
  readonly place: Place;
}

export type ReadTable =
  { readonly ok: true; readonly table: Table } | { readonly ok: false; readonly faults: readonly TextFault[] };

/** Rows by what they tell, and what is wrong with them. */
export class Table {
  readonly faults: TextFault[] = [];
  entries: readonly Entry[] = [];

  fault({ line, column }: Place, message: string): void {
    this.faults.push({ line, column, message });
  }

  all(what: What): readonly Entry[] {
    return this.entries.filter((entry) => entry.what === what);
  }

  /** Rows of one instrument. */
  of(what: What, instrument: number): readonly Entry[] {
    return this.all(what).filter((entry) => entry.instrument === instrument);
  }

  /** The only row of its kind for an instrument; a second one is a fault. */
  one(what: What, instrument: number): Entry | null {
    const [first, ...more] = this.of(what, instrument);
    for (const { place } of more) this.fault(place, `\`${what}\` stands here for the second time`);
    return this.of(what, instrument).length === 0 ? null : first;
  }

  /** What a cell means, in the words of the table or in others for them; null, with a fault, where that is not understood. */
  word<Meaning>({ text, place }: Cell, words: Words<Meaning>): Meaning | null {
    const reading = readWord(text, words);
    if (reading.ok) return reading.value;
    this.fault(place, reading.message);
    return null;
  }

  /** A whole number within bounds; null, with a fault, where it is none. */
  whole({ text, place }: Cell, min: number, max: number): number | null {
    const value = /^\d{1,9}$/u.test(text) ? Number(text) : NaN;
    if (value >= min && value <= max) return value;
    this.fault(place, `read ${show(text)}; a whole number from ${min} to ${max} is wanted`);
    return null;
  }
}

/** Finds the columns and the rows that tell something; one that tells nothing that is known is a fault. */
export function tableOf(text: string, instruments: number): ReadTable {
  if (text.trim() === '')
    return { ok: false, faults: [{ line: 1, column: 1, message: `the table is empty; ${HEAD_WANTED}` }] };
  const read = readSheet(text);
  if (!read.ok) return read;
  const { head, rows } = read.sheet;
  const names = head.cells.map((cell) => cell.text.toLowerCase());
  const missing = ['what', 'which', 'value'].filter((name) => !names.includes(name));
  if (missing.length > 0)
    return {
      ok: false,
      faults: [{ ...head.place, message: `no column is called ${missing.map(show).join(', ')}; ${HEAD_WANTED}` }],
    };
  const table = new Table();
  for (const cell of head.cells)
    if (
      cell.text !== '' &&
      !STATE_COLUMNS.some((name) => name === cell.text.toLowerCase()) &&
      cell.text.toLowerCase() !== NOTE_COLUMN
    )
      table.fault(
        cell.place,
        `no column ${show(cell.text)} is known${suggestion(cell.text, [...STATE_COLUMNS, NOTE_COLUMN])}`,
      );
  table.entries = rows.flatMap((row) => entryOf(row, names, instruments, table) ?? []);
  return { ok: true, table };
}

const HEAD_WANTED = `a first line \`${STATE_COLUMNS.join(',')}\` is wanted (--template writes one)`;

function entryOf(row: SheetRow, names: readonly string[], instruments: number, table: Table): Entry | null {
  const cell = (name: string): Cell => row.cells.at(names.indexOf(name)) ?? { text: '', place: row.place };
  const named = (name: string): Cell => (names.includes(name) ? cell(name) : { text: '', place: row.place });
  const first = named('what');
  const what = WHATS.find((each) => each === first.text.toLowerCase());
  if (what === undefined) {
    table.fault(first.place, `read ${show(first.text)}${suggestion(first.text, WHATS)}`);
    return null;
  }
  const at = named('instrument');
  const instrument = isMissing(at.text) ? 1 : table.whole(at, 1, instruments);
  if (instrument === null) return null;
  const value = named('value');
  if (isMissing(value.text)) return null;
  return {
    what,
    which: named('which'),
    value,
    takes: named('takes'),
    instrument: instrument - 1,
    place: row.place,
  };
}
