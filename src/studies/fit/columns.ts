import { EXPOSURE_UNITS, type ExposureUnit } from '../../scenario/exposure.js';
import type { Place } from '../../scenario/places.js';
import { show } from '../../scenario/show.js';
import { type Measure, unitFactor } from './amounts.js';
import { type Head, ROLE_NAMES, roleOf, type Role, unitsOfRole } from './heads.js';
import type { SheetRow } from '../../analysis/sheet.js';
import {
  type ColumnOptions,
  type ColumnsRead,
  missingColumn,
  type Roles,
  type Taken as TakenAs,
  takeColumns,
  unreadOf,
} from './taken.js';

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
export interface Columns extends ColumnsRead {
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
}

export interface ColumnFault extends Place {
  readonly message: string;
}

export type ReadColumns =
  { readonly ok: true; readonly columns: Columns } | { readonly ok: false; readonly faults: readonly ColumnFault[] };

const LOG: Roles<Role> = { table: 'a log', names: ROLE_NAMES, of: roleOf };
type Taken = TakenAs<Role>;

/** Finds out which column says what, from the heads and from what the user says of them. */
export function readColumns(row: SheetRow, options: ColumnOptions): ReadColumns {
  const faults: ColumnFault[] = [];
  const fault = (place: Place, message: string) => faults.push({ ...place, message });
  const taken = takeColumns(row, LOG, options, fault);
  const numbers = new Map(
    taken.flatMap((each) => {
      const column = numberColumn(each, taken);
      if (column === null) return [];
      if (column.ok) return [[each, column.column] as const];
      fault(each.place, column.message);
      return [];
    }),
  );
  const ended = taken.find(({ role }) => role === 'ended');
  const use = byUnit(numbers, 'use', fault);
  if (ended === undefined) fault(row.place, `${missingColumn('what ended a tip', 'ended', row)}, or answer --map`);
  if (Object.keys(use).length === 0 && faults.length === 0)
    fault(row.place, `${missingColumn('how much a tip was used', 'images', row)}, or answer --map`);
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
      unread: unreadOf(row, taken),
    },
  };
}

type NumberReading =
  { readonly ok: true; readonly column: NumberColumn } | { readonly ok: false; readonly message: string };

/** Null where the role holds no numbers. */
function numberColumn({ role, head, index, unit }: Taken, taken: readonly Taken[]): NumberReading | null {
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
