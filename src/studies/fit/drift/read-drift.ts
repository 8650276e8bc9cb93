import { DISTURBANCE_KINDS, type DisturbanceKind } from '../../../probe/drift.js';
import { suggestion } from '../../../scenario/nearest.js';
import type { Place } from '../../../scenario/places.js';
import { show } from '../../../scenario/show.js';
import type { DriftForm } from '../../../survival/drift-likelihood.js';
import { type Measure, notationOf, readAmount, unitFactor } from '../amounts.js';
import { latestDate } from '../dates.js';
import type { Head } from '../heads.js';
import { type LogFault, type ReadTable, type TableReading, WordsRead } from '../rows.js';
import { readSheet, type TableSource, type SheetRow, textAt } from '../../../analysis/sheet.js';
import { type ColumnOptions, missingColumn, type Taken, takeColumns, unreadOf } from '../taken.js';

/** What a column of a table of drift may hold; the names are those of `--column`. */
const ROLES = ['disturbance', 'kind', 'time', 'displacement', 'rate', 'error', 'date'] as const;
type Role = (typeof ROLES)[number];

/** Natural names of each column, in lower case with single blanks. Common usage, no source. */
const NAMES: Readonly<Record<Role, readonly string[]>> = {
  disturbance: ['disturbance', 'disturbance id', 'disturbance no', 'disturbance number', 'event', 'id', 'no', 'number'],
  kind: ['kind', 'kind of disturbance', 'disturbance kind', 'disturbance type', 'type'],
  time: ['time', 'time since disturbance', 'time since the disturbance', 'time after disturbance', 'elapsed'],
  displacement: ['displacement', 'shift', 'displaced', 'moved', 'drift distance'],
  rate: ['rate', 'drift rate', 'velocity', 'drift velocity'],
  error: ['error', 'reading error', 'uncertainty', 'standard deviation', 'sd', 'sigma'],
  date: ['date', 'day'],
};

/** Words for each kind of disturbance, beside its own: the steps that disturb (MODEL, Drift). */
const KIND_WORDS: Readonly<Record<DisturbanceKind, readonly string[]>> = {
  handling: [
    'hands',
    'set-up',
    'setup',
    'exchange',
    'tip exchange',
    'chip exchange',
    'sample change',
    'change of sample',
  ],
  move: ['offset', 'hop', 'coarse move'],
};

/** Weights go as its square. */
const SMALLEST_ERROR = 1e-9;

const WITH_UNIT: readonly Role[] = ['time', 'displacement', 'rate', 'error'];

/** A reading of drift that can be used. */
export interface DriftReading {
  readonly place: Place;
  readonly disturbance: string;
  readonly kind: DisturbanceKind;
  /** Seconds since the disturbance ended. */
  readonly time: number;
  /** Nanometres, or nanometres a second. */
  readonly value: number;
  /** Stated standard deviation of the value; null where the table states none. */
  readonly error: number | null;
}

export interface ReadDrift extends ReadTable<DriftReading> {
  readonly form: DriftForm;
  /** False: the table doesn't say what disturbed, and all is taken as handling. */
  readonly saysKind: boolean;
}

/** A column of numbers, with what one of them is in the units used inside. */
interface Numbers {
  readonly taken: Taken<Role>;
  readonly measure: Measure;
  readonly factor: number;
}

/** Reads a table of drift: disturbance, kind, time since it ended, displacement or rate, error. */
export function readDrift(text: TableSource, options: ColumnOptions): TableReading<ReadDrift> {
  const sheet = readSheet(text);
  if (!sheet.ok) return sheet;
  const { head, rows } = sheet.sheet;
  const problems: (Place & { readonly message: string })[] = [];
  const fault = (place: Place, message: string) => problems.push({ ...place, message });
  const roles = {
    table: 'a table of drift',
    names: ROLES,
    of: ({ name }: Head) => ROLES.find((role) => NAMES[role].includes(name)) ?? null,
  };
  const taken = takeColumns(head, roles, options, fault);
  const of = (role: Role) => taken.find((each) => each.role === role);
  const [disturbance, time, displacement, rate] = (['disturbance', 'time', 'displacement', 'rate'] as const).map(of);
  if (disturbance === undefined)
    fault(head.place, missingColumn('after which disturbance a reading is', 'disturbance', head));
  if (time === undefined) fault(head.place, missingColumn('how long after it', 'time', head));
  const value = displacement ?? rate;
  if (value === undefined) fault(head.place, missingColumn('how far all has moved, or its rate', 'displacement', head));
  if (displacement !== undefined && rate !== undefined)
    fault(
      rate.place,
      `both ${show(displacement.head.text)} and ${show(rate.head.text)} are here, which say the same; leave one of them out`,
    );
  const form: DriftForm = displacement === undefined ? 'rate' : 'displacement';
  const numbers = (column: Taken<Role> | undefined, measure: Measure): Numbers | null => {
    if (column === undefined) return null;
    const factor = unitFactor(measure, column.unit ?? '');
    if (factor.ok) return { taken: column, measure, factor: factor.value };
    const { role, head: named } = column;
    fault(
      column.place,
      `the column ${show(named.text)} ${factor.message}, in its head as \`${named.bare} [unit]\` or with --unit ${role}=UNIT`,
    );
    return null;
  };
  const columns = { time: numbers(time, 'elapsed'), value: numbers(value, form), error: numbers(of('error'), form) };
  const ofKind = of('kind');
  if (problems.length > 0 || disturbance === undefined || columns.time === null || columns.value === null)
    return { ok: false, faults: problems };

  const all = [columns.time, columns.value, ...(columns.error === null ? [] : [columns.error])];
  const notation = notationOf(rows.flatMap(({ cells }) => all.map((each) => textAt(cells, each.taken.index))));
  const faults: LogFault[] = [];
  const readAs = new WordsRead();
  const kinds = new Map<string, DisturbanceKind>();
  const places = new Map<string, Place>();
  const read = (row: SheetRow): DriftReading | null => {
    const before = faults.length;
    const refuse = (column: Taken<Role>, message: string) =>
      faults.push({ ...(row.cells.at(column.index)?.place ?? row.place), severity: 'row', message });
    const number = ({ taken: column, measure, factor }: Numbers): number => {
      const cell = textAt(row.cells, column.index);
      const reading = cell === '' ? null : readAmount(measure, cell, factor, notation);
      if (reading === null) refuse(column, `${show(column.head.text)}: nothing stands here; a number is wanted`);
      else if (!reading.ok) refuse(column, `${show(column.head.text)}: ${reading.message}`);
      return reading?.ok === true ? reading.value : NaN;
    };
    const name = textAt(row.cells, disturbance.index);
    if (name === '') refuse(disturbance, 'the disturbance has no name');
    const word = ofKind === undefined ? 'handling' : textAt(row.cells, ofKind.index);
    const kind = kindOf(word);
    if (kind === null && ofKind !== undefined)
      refuse(
        ofKind,
        `read ${show(word)} as what disturbed; handling or move is wanted${suggestion(word, DISTURBANCE_KINDS)}`,
      );
    const [at, moved, error] = [columns.time, columns.value, columns.error].map((each) =>
      each === null ? null : number(each),
    );
    if (columns.error !== null && error !== null && error < SMALLEST_ERROR)
      refuse(columns.error.taken, `${show(columns.error.taken.head.text)}: an error above zero is wanted`);
    if (faults.length > before || kind === null || at === null || moved === null) return null;
    if ((kinds.get(name) ?? kind) !== kind && ofKind !== undefined)
      refuse(ofKind, `the disturbance ${show(name)} is ${kinds.get(name) ?? ''} further up; one of a kind is wanted`);
    const moment = `${at} ${name}`;
    const twin = places.get(moment);
    if (twin !== undefined)
      refuse(disturbance, `the disturbance ${show(name)} has a reading at this time in line ${twin.line} already`);
    if (faults.length > before) return null;
    kinds.set(name, kind);
    places.set(moment, row.place);
    if (kind !== word) readAs.note(word, kind);
    return { place: row.place, disturbance: name, kind, time: at, value: moved, error };
  };
  const date = of('date')?.index ?? null;
  return {
    ok: true,
    log: {
      form,
      saysKind: ofKind !== undefined,
      columns: {
        read: taken.map(({ role, head: named, unit }) => ({
          role,
          header: named.text,
          unit: WITH_UNIT.includes(role) ? unit : null,
        })),
        unread: unreadOf(head, taken),
      },
      rowCount: rows.length,
      leftOut: 0,
      rows: rows.flatMap((row) => read(row) ?? []),
      faults,
      readAs: readAs.all,
      lastDate: latestDate(rows.map(({ cells }) => textAt(cells, date))),
    },
  };
}

function kindOf(word: string): DisturbanceKind | null {
  const plain = word.toLowerCase().replace(/\s+/gu, ' ');
  return DISTURBANCE_KINDS.find((kind) => kind === plain || KIND_WORDS[kind].includes(plain)) ?? null;
}
