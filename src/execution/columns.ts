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
  /** What `addNumbers` was given last, with the columns of those names and how far all of them have room. */
  private names: readonly string[] = [];
  private named: readonly Float64Array[] = [];
  private roomTo = 0;

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
    this.addNumbers(Object.keys(row), Object.values(row));
  }

  /** As `add`, names and numbers apart: quick where the names are the very list that they were before. */
  addNumbers(names: readonly string[], numbers: ArrayLike<number>): void {
    const { length } = this;
    if (names !== this.names || length >= this.roomTo) {
      this.requireSame(names);
      this.named = names.map((name) => this.roomFor(name, length + 1));
      this.names = names;
      this.roomTo = Math.min(...this.named.map((column) => column.length));
    }
    const { named } = this;
    for (let i = 0; i < named.length; i += 1) named[i][length] = numbers[i];
    this.length = length + 1;
  }

  /** More of each. @throws Error where there are other columns than before */
  append(count: number, columns: ColumnSet): void {
    if (count === 0) return;
    this.requireSame(Object.keys(columns));
    for (const [name, numbers] of Object.entries(columns))
      this.roomFor(name, this.length + count).set(numbers, this.length);
    this.length += count;
    this.roomTo = 0;
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

  private requireSame(names: readonly string[]): void {
    if (this.length > 0 && !(names.length === this.room.size && names.every((name) => this.room.has(name))))
      throw new Error(`columns ${names.join(', ')} do not go on with ${[...this.room.keys()].join(', ')}`);
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
