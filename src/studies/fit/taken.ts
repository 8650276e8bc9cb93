import { suggestion } from '../../scenario/nearest.js';
import type { Place } from '../../scenario/places.js';
import { show } from '../../scenario/show.js';
import { type Head, headOf } from './heads.js';
import type { SheetRow } from '../../analysis/sheet.js';

/** What the columns of a kind of table may hold. */
export interface Roles<Role extends string> {
  /** What it is, such as `a log`. */
  readonly table: string;
  /** Names of the roles, which are those of `--column`. */
  readonly names: readonly Role[];
  /** What a column holds by its head; null where that is not known. */
  readonly of: (head: Head) => Role | null;
}

/** What the user says of columns: role or head → head, and role or head → unit. */
export interface ColumnOptions {
  readonly columns: ReadonlyMap<string, string>;
  readonly units: ReadonlyMap<string, string>;
}

/** A column that is read. */
export interface Taken<Role extends string> {
  readonly role: Role;
  readonly head: Head;
  readonly place: Place;
  readonly index: number;
  /** Of the option, or of the head; null where none is given. */
  readonly unit: string | null;
}

/** How columns were read, for the record. */
export interface ColumnsRead {
  /** Each column that is read, with the role that it has. */
  readonly read: readonly { readonly role: string; readonly header: string; readonly unit: string | null }[];
  /** Heads of columns of which nothing is read. */
  readonly unread: readonly string[];
}

type Fault = (place: Place, message: string) => void;

/** Finds out which column has which role, from the heads and from what the user says of them; one column for each role. */
export function takeColumns<Role extends string>(
  row: SheetRow,
  roles: Roles<Role>,
  { columns, units }: ColumnOptions,
  fault: Fault,
): readonly Taken<Role>[] {
  const heads = row.cells.map(({ text }) => headOf(text));
  const named = namedColumns(heads, roles, columns, (message) => {
    fault(row.place, message);
  });
  const found = heads.flatMap((head, index): Taken<Role>[] => {
    const role = named.get(index) ?? (head.name === '' ? null : roles.of(head));
    if (role === null || (!named.has(index) && [...named.values()].includes(role))) return [];
    const given = [...units].find(([name]) => isNamed({ role, head }, name));
    return [{ role, head, index, place: row.cells[index].place, unit: given?.[1] ?? head.unit }];
  });
  const taken = settled(found, fault);
  for (const name of units.keys())
    if (!taken.some((each) => isNamed(each, name)))
      fault(
        row.place,
        `--unit ${name}=…: no column that is read is called ${show(name)}${suggestion(
          name,
          taken.map(({ head }) => head.name),
        )}`,
      );
  return taken;
}

/** Heads of columns that have no role. */
export function unreadOf(row: SheetRow, taken: readonly { readonly index: number }[]): readonly string[] {
  return row.cells
    .filter(({ text }, index) => text !== '' && !taken.some((each) => each.index === index))
    .map(({ text }) => text);
}

export function missingColumn(what: string, role: string, row: SheetRow): string {
  const read = row.cells.map(({ text }) => show(text)).join(', ');
  return `no column says ${what}: the heads are ${read}; call it ${show(role)}, or say which it is with --column ${role}=HEAD`;
}

/** Columns that the user has named, by their number. */
function namedColumns<Role extends string>(
  heads: readonly Head[],
  roles: Roles<Role>,
  columns: ColumnOptions['columns'],
  fault: (message: string) => void,
): ReadonlyMap<number, Role> {
  const named = new Map<number, Role>();
  for (const [name, wanted] of columns) {
    const role = roles.names.find((each) => each === name);
    const same = headOf(wanted);
    const index = heads.findIndex((head) => head.text === wanted || head.name === same.name || head.bare === same.name);
    if (role === undefined)
      fault(`--column ${name}=…: nothing of ${roles.table} is called ${show(name)}${suggestion(name, roles.names)}`);
    else if (index < 0)
      fault(
        `--column ${name}=${wanted}: no column has this head${suggestion(
          wanted,
          heads.map(({ text }) => text).filter((text) => text !== ''),
        )}`,
      );
    else named.set(index, role);
  }
  return named;
}

/** One column for each role. */
function settled<Role extends string>(found: readonly Taken<Role>[], fault: Fault): readonly Taken<Role>[] {
  const first = new Map<Role, Taken<Role>>();
  for (const each of found) {
    const before = first.get(each.role);
    if (before === undefined) first.set(each.role, each);
    else
      fault(
        each.place,
        `both ${show(before.head.text)} and ${show(each.head.text)} read as ${show(each.role)}; say which with --column ${each.role}=HEAD`,
      );
  }
  return [...first.values()];
}

function isNamed({ role, head }: Pick<Taken<string>, 'role' | 'head'>, name: string): boolean {
  return role === name || head.text === name || head.name === headOf(name).name;
}
