import type { Table } from './table.js';
import { nameIn } from '../scenario/describe.js';
import { uniqueLabels } from './text.js';
import { moneyScale, numberText, percentText, timeText, withUnit } from '../wording/numbers.js';
import type { Amount, Found, Worth, WorthFound } from '../analysis/worth/results.js';
import { ADVISED, hoursText, recordsText, type Speaking } from '../analysis/worth/words.js';
import { capital } from '../wording/phrases.js';

/** How worth stands in the columns of a table. */
export interface WorthCells<Told> {
  readonly columns: Table['columns'];
  readonly cells: (worth: Told) => readonly string[];
}

function amountCell({ value, low, high }: Amount, text: (amount: number) => string): string {
  return `${text(value)} (${text(low)} to ${text(high)})`;
}

/** Columns of a choice that is made by one measure. */
export function cellsOf<Told extends { readonly wrong: number }>({
  saved,
  text,
  verb,
}: Speaking<Told>): WorthCells<Told> {
  return {
    columns: [
      { label: `${capital(verb)}s a campaign`, numeric: true },
      { label: 'Wrong choice', numeric: true },
    ],
    cells: (worth) => [amountCell(saved(worth), text), percentText(worth.wrong)],
  };
}

/** Columns of the choice between strategies, by time and by cost. */
export function timeAndCost(currency: string): WorthCells<Worth> {
  return {
    columns: [
      { label: 'Saves a campaign', numeric: true },
      { label: 'Saves in cost', numeric: true },
      { label: 'Wrong choice', numeric: true },
    ],
    cells: ({ hours, cost, wrong }) => [
      amountCell(hours, hoursText),
      withUnit(numberText(cost.value), moneyScale(currency)),
      percentText(wrong),
    ],
  };
}

/** What knowing each value exactly is worth. */
export function knownTable<Told>({ perfect, values }: Found<Told>, { columns, cells }: WorthCells<Told>): Table {
  return {
    columns: [{ label: 'Value' }, { label: 'Plausible range' }, ...columns],
    rows: [
      ['everything', '', ...cells(perfect)],
      ...values.map((value) => [value.description, value.within ?? '', ...cells(value)]),
    ],
  };
}

/** What knowing each value exactly is worth, and what share it has in the variance of time; that alone where there is no choice. */
export function valuesTable(found: WorthFound, currency: string): Table {
  const shares = found.values.map(({ indices }) => [percentText(indices.first), percentText(indices.total)]);
  const isChoice = found.strategies.length > 1;
  const { columns, rows } = knownTable(found, isChoice ? timeAndCost(currency) : NO_CHOICE);
  const [everything, ...values] = rows;
  return {
    columns: [...columns, { label: 'First-order', numeric: true }, { label: 'Total', numeric: true }],
    rows: [...(isChoice ? [[...everything, '', '']] : []), ...values.map((row, place) => [...row, ...shares[place]])],
  };
}

const NO_CHOICE: WorthCells<Worth> = { columns: [], cells: () => [] };

/** Rows that the terminal's table has at least. */
const LEAST_ROWS = 5;

/** The same for a terminal: what is worth most, and records that can be kept of it. */
export function shortTable<Told extends { readonly wrong: number }>(
  found: Found<Told>,
  speaking: Speaking<Told>,
): Table {
  const { saved, text } = speaking;
  const { columns, cells } = cellsOf(speaking);
  const records = found.records.filter((each) => each.count === ADVISED && saved(each).value > 0);
  const known = [
    ...found.values.map((worth) => ({ name: nameIn(worth.description), worth })),
    ...records.map((worth) => ({ name: recordsText(worth), worth })),
  ].toSorted((a, b) => saved(b.worth).value - saved(a.worth).value);
  // What reads as nothing tells nothing, but for the first of it.
  const nothing = text(0);
  const telling = known.filter(({ worth }, place) => place < LEAST_ROWS || text(saved(worth).high) !== nothing);
  const all = [{ name: 'everything', worth: found.perfect }, ...telling];
  const names = uniqueLabels(
    all.map(({ name }) => name),
    52,
  );
  return {
    columns: [{ label: 'known' }, ...columns.map(({ label, ...more }) => ({ label: label.toLowerCase(), ...more }))],
    rows: all.map(({ worth }, place) => [names[place], ...cells(worth)]),
  };
}

export const SAVES =
  'What is saved on average by choosing once it is known, against the choice that one would make now; the probability that the choice by time is wrong even then; and shares of the variance of the difference in time (Sobol’ indices)';

/** What more records are worth, against the time that it takes to write them down. */
export function recordsTable<Told>({ records }: Found<Told>, { columns, cells }: WorthCells<Told>): Table {
  return {
    columns: [{ label: 'Records' }, ...columns, { label: 'To write down', numeric: true }],
    rows: records.map((each) => [recordsText(each), ...cells(each), timeText(each.effort)]),
  };
}

/** What stands over it. */
export const RECORDED =
  'The same for records of which nobody knows yet what they say: lives of tips until they end, or times of a step, made up from each draw as if it were the truth';

export function strategiesTable({ strategies, chosen }: WorthFound, currency: string): Table {
  return {
    columns: [
      { label: 'Strategy' },
      { label: 'Mean instrument time', numeric: true },
      { label: 'Mean cost', numeric: true },
      { label: 'Chosen now' },
    ],
    rows: strategies.map(({ name, hours, cost }) => [
      name,
      hoursText(hours),
      withUnit(numberText(cost), moneyScale(currency)),
      [...(name === chosen.byHours ? ['by time'] : []), ...(name === chosen.byCost ? ['by cost'] : [])].join(', '),
    ]),
  };
}
