/** Numbers by the name of their column. */
export type Row = Readonly<Record<string, number>>;
/** Columns of one length by their names. */
export type ColumnSet = Readonly<Record<string, Float64Array>>;

const NOTHING = new Float64Array(0);
const LEAST_ROOM = 16;

/** Columns of one length that grow together. */
export class Columns {
  private readonly room = new Map<string, Float64Array>();
  private readonly views = new Map<string, Float64Array>();
  private length = 0;
  private reserved = LEAST_ROOM;

  get count(): number {
    return this.length;
  }

  /** The column as far as it goes by now; empty where there is none of that name. It does not grow with what comes later. */
  of(name: string): Float64Array {
    const known = this.views.get(name);
    if (known?.length === this.length) return known;
    const view = (this.room.get(name) ?? NOTHING).subarray(0, this.length);
    this.views.set(name, view);
    return view;
  }

  /** Says how many there will be in all, as far as is known, so that columns do not move on their way there. */
  reserve(count: number): void {
    this.reserved = Math.max(this.reserved, count);
  }

  /** One more of each. @throws Error where there are other columns than before */
  add(row: Row): void {
    this.grow(1, row, (column, number) => {
      column[this.length] = number;
    });
  }

  /** More of each. @throws Error where there are other columns than before */
  append(count: number, columns: ColumnSet): void {
    if (count === 0) return;
    this.grow(count, columns, (column, numbers) => {
      column.set(numbers, this.length);
    });
  }

  /** The first numbers of each column, so many of them, in the same memory. */
  first(count: number): Columns {
    const columns = new Columns();
    for (const name of this.room.keys()) columns.room.set(name, this.of(name).subarray(0, count));
    columns.length = count;
    return columns;
  }

  /** All columns as plain data, each in memory of its own. */
  copy(): ColumnSet {
    return Object.fromEntries(Array.from(this.room.keys(), (name) => [name, this.of(name).slice()]));
  }

  private grow<Part>(
    by: number,
    parts: Readonly<Record<string, Part>>,
    put: (column: Float64Array, part: Part) => void,
  ): void {
    const entries = Object.entries(parts);
    if (this.length > 0 && !(entries.length === this.room.size && entries.every(([name]) => this.room.has(name))))
      throw new Error(`columns ${Object.keys(parts).join(', ')} do not go on with ${[...this.room.keys()].join(', ')}`);
    for (const [name, part] of entries) put(this.roomFor(name, this.length + by), part);
    this.length += by;
  }

  /** A column with room for so many numbers: the one that is there, or a longer one in its place. */
  private roomFor(name: string, count: number): Float64Array {
    const column = this.room.get(name) ?? NOTHING;
    if (column.length >= count) return column;
    const longer = new Float64Array(Math.max(count, this.reserved > column.length ? this.reserved : 2 * column.length));
    longer.set(column.subarray(0, this.length));
    this.room.set(name, longer);
    return longer;
  }
}
