import { EXPOSURE_UNITS, type ExposureUnit } from '../../scenario/exposure.js';
import { suggestion } from '../../scenario/nearest.js';
import type { Place } from '../../scenario/places.js';
import { show } from '../../scenario/show.js';
import { type Measure, unitFactor } from './amounts.js';
import { headOf, type Head, ROLE_NAMES, roleOf, type Role, unitsOfRole } from './heads.js';
import type { SheetRow } from './sheet.js';

/** A column of numbers, and what one of its numbers is in the units used inside. */
export interface NumberColumn {
  readonly index: number;
  readonly header: string;
  readonly measure: Measure;
  readonly factor: number;
  /** As it is shown. */
  readonly unit: string;
}

type ByUnit = Readonly<Partial<Record<ExposureUnit, NumberColumn>>>;

/** Where a log says what. */
export interface Columns {
  readonly tip: number | null;
  readonly kind: number | null;
  readonly ended: number;
  readonly environment: number | null;
  readonly date: number | null;
  /** Use when the tip was taken off, when it came under observation, and when it was last known to be sound. */
  readonly use: ByUnit;
  readonly entry: ByUnit;
  readonly sound: ByUnit;
  readonly load: NumberColumn | null;
  readonly pace: NumberColumn | null;
  /** Each column that is read, with the role that it has. */
  readonly read: readonly { readonly role: string; readonly header: string; readonly unit: string | null }[];
  /** Heads of columns of which nothing is read. */
  readonly unread: readonly string[];
}

export interface ColumnFault extends Place {
  readonly message: string;
}

export type ReadColumns =
  { readonly ok: true; readonly columns: Columns } | { readonly ok: false; readonly faults: readonly ColumnFault[] };

/** What the user says of columns: role or head → head, and role or head → unit. */
export interface ColumnOptions {
  readonly columns: ReadonlyMap<string, string>;
  readonly units: ReadonlyMap<string, string>;
}

interface Taken {
  readonly role: Role;
  readonly head: Head;
  readonly place: Place;
  readonly index: number;
}

/** Finds out which column says what, from the heads and from what the user says of them. */
export function readColumns(row: SheetRow, options: ColumnOptions): ReadColumns {
  const heads = row.cells.map(({ text }) => headOf(text));
  const faults: ColumnFault[] = [];
  const at = (index: number): Place => row.cells[index].place;
  const named = namedColumns(heads, options, (message) => faults.push({ ...row.place, message }));
  const found = heads.flatMap((head, index): Taken[] => {
    const role = named.get(index) ?? (head.name === '' ? null : roleOf(head));
    return role === null || (!named.has(index) && [...named.values()].includes(role))
      ? []
      : [{ role, head, index, place: at(index) }];
  });
  const taken = settled(found, (place, message) => faults.push({ ...place, message }));
  const numbers = new Map(
    taken.flatMap((each) => {
      const column = numberColumn(each, unitOf(each, options), taken);
      if (column === null) return [];
      if (column.ok) return [[each, column.column] as const];
      faults.push({ ...each.place, message: column.message });
      return [];
    }),
  );
  const unknownUnits = [...options.units.keys()].filter((name) => !taken.some((each) => isNamed(each, name)));
  for (const name of unknownUnits)
    faults.push({
      ...row.place,
      message: `--unit ${name}=…: no column that is read is called ${show(name)}${suggestion(
        name,
        taken.map(({ head }) => head.name),
      )}`,
    });
  const ended = taken.find(({ role }) => role === 'ended');
  const use = byUnit(numbers, 'use', (place, message) => faults.push({ ...place, message }));
  if (ended === undefined) faults.push({ ...row.place, message: missing('what ended a tip', 'ended', row) });
  if (Object.keys(use).length === 0 && faults.length === 0)
    faults.push({ ...row.place, message: missing('how much a tip was used', 'images', row) });
  const fault = (place: Place, message: string) => faults.push({ ...place, message });
  const entry = byUnit(numbers, 'entry', fault);
  const sound = byUnit(numbers, 'sound', fault);
  if (faults.length > 0 || ended === undefined) return { ok: false, faults };
  const indexOf = (wanted: Role) => taken.find(({ role }) => role === wanted)?.index ?? null;
  const numberOf = (wanted: Role) => [...numbers].find(([{ role }]) => role === wanted)?.[1] ?? null;
  return {
    ok: true,
    columns: {
      tip: indexOf('tip'),
      kind: indexOf('kind'),
      ended: ended.index,
      environment: indexOf('environment'),
      date: indexOf('date'),
      use,
      entry,
      sound,
      load: numberOf('load'),
      pace: numberOf('pace'),
      read: taken.map((each) => ({
        role: each.role,
        header: each.head.text,
        unit: numbers.get(each)?.unit ?? null,
      })),
      unread: heads
        .filter((head, index) => head.text !== '' && !taken.some((each) => each.index === index))
        .map(({ text }) => text),
    },
  };
}

function missing(what: string, role: Role, row: SheetRow): string {
  const read = row.cells.map(({ text }) => show(text)).join(', ');
  return `no column says ${what}: the heads are ${read}; call it ${show(role)}, or say which it is with --column ${role}=HEAD`;
}

/** Columns that the user has named, by their number. */
function namedColumns(
  heads: readonly Head[],
  { columns }: ColumnOptions,
  fault: (message: string) => void,
): ReadonlyMap<number, Role> {
  const named = new Map<number, Role>();
  for (const [name, wanted] of columns) {
    const role = ROLE_NAMES.find((each) => each === name);
    const same = headOf(wanted);
    const index = heads.findIndex((head) => head.text === wanted || head.name === same.name || head.bare === same.name);
    if (role === undefined)
      fault(`--column ${name}=…: nothing of a log is called ${show(name)}${suggestion(name, ROLE_NAMES)}`);
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
function settled(found: readonly Taken[], fault: (place: Place, message: string) => void): readonly Taken[] {
  const first = new Map<Role, Taken>();
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

function isNamed({ role, head }: Taken, name: string): boolean {
  return role === name || head.text === name || head.name === headOf(name).name;
}

/** Of the option, of the head, or of the head's own name, such as minutes; null where none is given. */
function unitOf(each: Taken, { units }: ColumnOptions): string | null {
  const given = [...units].find(([name]) => isNamed(each, name));
  return given?.[1] ?? each.head.unit;
}

type NumberReading =
  { readonly ok: true; readonly column: NumberColumn } | { readonly ok: false; readonly message: string };

/** Null where the role holds no numbers. */
function numberColumn(
  { role, head, index }: Taken,
  unit: string | null,
  taken: readonly Taken[],
): NumberReading | null {
  const measures = unitsOfRole(role);
  if (measures === null) return null;
  const column = (measure: Measure, text: string): NumberReading => {
    const factor = unitFactor(measure, text);
    return factor.ok
      ? { ok: true, column: { index, header: head.text, measure, factor: factor.value, unit: text } }
      : {
          ok: false,
          message: `the column ${show(head.text)} ${factor.message}, in its head as \`${head.bare} [unit]\` or with --unit ${role}=UNIT`,
        };
  };
  if (measures.length === 1) return column(measures[0], unit ?? usualUnit(measures[0], head));
  const fitting = unit === null || unit === '' ? [] : measures.filter((measure) => unitFactor(measure, unit).ok);
  if (fitting.length === 1) return column(fitting[0], unit ?? '');
  const uses = taken.filter((each) => each.role in USE_ROLES);
  const [only] = uses;
  if (uses.length === 1 && unit === null) {
    const measure = USE_ROLES[only.role];
    if (measure !== undefined) return column(measure, only.head.unit ?? usualUnit(measure, only.head));
  }
  return {
    ok: false,
    message: `the column ${show(head.text)} does not say what it counts; name it after images, distance, hours or approaches, such as \`${head.bare} images\``,
  };
}

/** Roles that hold a use, and the exposure unit of each. */
const USE_ROLES: Readonly<Partial<Record<Role, ExposureUnit>>> = {
  images: 'image',
  distance: 'distance',
  hours: 'hour',
  approaches: 'approach',
};

function usualUnit(measure: Measure, head: Head): string {
  if (measure === 'hour' && /hour/u.test(head.name)) return 'h';
  if (measure === 'hour' && /minute/u.test(head.name)) return 'min';
  return measure === 'image' ? 'images' : measure === 'approach' ? 'approaches' : measure === 'pace' ? '1' : '';
}

function byUnit(
  numbers: ReadonlyMap<Taken, NumberColumn>,
  what: 'use' | 'entry' | 'sound',
  fault: (place: Place, message: string) => void,
): ByUnit {
  const found: Partial<Record<ExposureUnit, NumberColumn>> = {};
  for (const [{ role, place }, column] of numbers) {
    const belongs = what === 'use' ? role in USE_ROLES : role === what || role.startsWith(`${what}-`);
    const unit = EXPOSURE_UNITS.find((each) => each === column.measure);
    if (!belongs || unit === undefined) continue;
    const before = found[unit];
    if (before === undefined) found[unit] = column;
    else
      fault(
        place,
        `both ${show(before.header)} and ${show(column.header)} count the same; say which with --column ${role}=HEAD`,
      );
  }
  return found;
}
