import type { ExposureUnit } from '../../scenario/exposure.js';
import type { Place } from '../../scenario/places.js';
import type { Ending } from './endings.js';
import type { ColumnsRead } from './taken.js';

/** Amounts by what they count. */
export type ByExposure = Readonly<Partial<Record<ExposureUnit, number>>>;

/** One row of a log that can be used: what became of one tip. */
export interface TipRow {
  readonly place: Place;
  readonly tip: string;
  readonly kind: string;
  /** Use when it was taken off, in every exposure that the row gives. */
  readonly use: ByExposure;
  /** Use when it came under observation. */
  readonly entry: ByExposure;
  /** Use at which it was last known to be sound. */
  readonly sound: ByExposure;
  readonly ending: Ending;
  /** In nanonewtons. */
  readonly load: number | null;
  readonly pace: number | null;
}

/** Something to say of a place in a log. */
export interface LogFault extends Place {
  /** `row`: this row is not used; `note`: it is used, but not as it stands. */
  readonly severity: 'row' | 'note';
  readonly message: string;
}

/** A word of a table that was read as another, such as `broken` as `breakage`, and how often. */
export interface WordRead {
  readonly word: string;
  readonly meant: string;
  readonly rows: number;
}

/** Counts words that are read as others. */
export class WordsRead {
  readonly #byWord = new Map<string, WordRead>();

  note(word: string, meant: string): void {
    const before = this.#byWord.get(word)?.rows ?? 0;
    this.#byWord.set(word, { word, meant, rows: before + 1 });
  }

  get all(): readonly WordRead[] {
    return [...this.#byWord.values()];
  }
}

/** A table that was read: what can be used of it, and what cannot. */
export interface ReadTable<Row> {
  readonly columns: ColumnsRead;
  /** Rows with any text, the heads not counted. */
  readonly rowCount: number;
  readonly rows: readonly Row[];
  /** Rows that are no tips of the log, as sums of others and tips of a kind that is not wanted. */
  readonly leftOut: number;
  readonly faults: readonly LogFault[];
  readonly readAs: readonly WordRead[];
  /** The last date of the table as `2026-03-14`; null where it has none that can be read. */
  readonly lastDate: string | null;
}

export type TableReading<Table> =
  | { readonly ok: true; readonly log: Table }
  | { readonly ok: false; readonly faults: readonly (Place & { readonly message: string })[] };
