import { LEVEL } from '../differences.js';
import type { LoadedScenario } from '../../scenario/load.js';
import { knownWithin, type UnknownParameter } from '../../scenario/uncertainty.js';
import { type InformationValue, valueOfKnowingAll } from '../../statistics/information/value.js';
import type { Numbers } from '../../statistics/numbers.js';
import { columnsOfEach, type Draws, meansOf } from './drawn.js';
import { makeRecords } from './records.js';
import type { Amount, Found, Records, Subject, WorthOfRecords, WorthOfValue } from './results.js';

/** Operator seconds that it takes to write down what ended a tip, or how long a step took (common practice, no source). */
const EFFORT: Readonly<Record<Records['what'], number>> = { tips: 120, timings: 60 };

/** Steps of which timings are tried: those that are worth most to know. */
const MOST_STEPS = 5;

/** A subject with the numbers of its columns among the draws. */
export interface DrawnSubject {
  readonly about: Subject;
  readonly places: readonly number[];
}

/** What each choice came to on draws, and how its worth is told. */
export interface Choosing<Told> {
  readonly loaded: LoadedScenario;
  readonly draws: Draws;
  /** What may be known of the draws. */
  readonly subjects: readonly DrawnSubject[];
  /** Of the draws. */
  readonly seed: string;
  /**
   * Measure by measure, the one that decides first: what each choice came to, replication after replication, less of which is
   * better.
   */
  readonly losses: readonly (readonly Numbers[])[];
  /** @param saved measure by measure */
  readonly told: (saved: readonly Amount[], wrong: number) => Told;
}

/** What it is worth to know more, value by value, before one chooses. */
export function knowing<Told>({ loaded, draws, subjects: all, seed, losses, told }: Choosing<Told>): Found<Told> {
  if (draws.inputs.length === 0) {
    const nothing = losses.map(() => ({ value: 0, low: 0, high: 0 }));
    return { wrongNow: 0, perfect: told(nothing, 0), values: [], records: [] };
  }
  const columns = draws.values.flat();
  const means = losses.map((choices) => choices.map((each) => meansOf(each, draws.size)));
  const of = (known: readonly Numbers[]) => means.map((choices) => valueOfKnowingAll(choices, known, LEVEL));
  const subjects = all.map(({ about, places }) => ({
    about,
    found: of(places.map((place) => columns[place])),
  }));
  const whole = of(columns);
  // To know all is worth at least as much as to know some, of whichever more was found.
  const perfect = whole.map((all, measure) => subjects.map(({ found }) => found[measure]).reduce(larger, all));
  const [best] = perfect;
  const toldOf = (found: readonly InformationValue[]) => told(found.map(amount), wrong(found[0].choices, best.choices));
  const values = subjects.toSorted((a, b) => compared(b.found, a.found));
  const steps = values.filter(({ about, found }) => about.path.includes('.steps.') && found[0].value > 0);
  const timed = steps.slice(0, MOST_STEPS).map(({ about }) => about.path);
  const records = losses[0].length < 2 ? [] : makeRecords(loaded, draws.inputs, seed, draws.size.draws);
  return {
    wrongNow: wrong(
      best.choices.map(() => best.now),
      best.choices,
    ),
    perfect: toldOf(perfect),
    values: values.map(({ about, found }): WorthOfValue<Told> => ({ ...about, ...toldOf(found) })),
    records: records
      .filter(({ path, what }) => what === 'tips' || timed.includes(path))
      .flatMap(({ path, what, of: about, summaries }) =>
        [...summaries].map(([count, made]): WorthOfRecords<Told> => ({
          ...{ path, what, of: about, count, effort: count * EFFORT[what] },
          ...toldOf(of(made)),
        })),
      ),
  };
}

/** Every uncertain value, and every group of several that are measured together, with the numbers of its columns. */
export function subjectsOf(draws: Draws): readonly DrawnSubject[] {
  const { inputs } = draws;
  const columns = columnsOfEach(draws);
  const singles = inputs.map(({ path, description, parameters }, place) => ({
    about: {
      ...{ path, description, isGroup: false },
      within: parameters.length === 1 || parameters[0].draw.path === path ? rangeText(parameters[0]) : null,
    },
    places: columns[place],
  }));
  const groups = groupsOf(inputs.map(({ path }) => path)).flatMap(({ path, description }) => {
    const members = inputs.flatMap((input, place) => (input.path.startsWith(`${path}.`) ? [place] : []));
    const about = { path, description, isGroup: true, within: null };
    return members.length > 1 ? [{ about, places: members.flatMap((place) => columns[place]) }] : [];
  });
  return [...singles, ...groups];
}

function rangeText(parameter: UnknownParameter): string {
  const { low, high } = knownWithin(parameter);
  return `${low} to ${high}`;
}

/** What is measured together: the hazards of a kind of tips, the times of a workflow. */
function groupsOf(paths: readonly string[]): readonly { readonly path: string; readonly description: string }[] {
  const found = new Map<string, string>();
  for (const path of paths) {
    const [first, name, third] = path.split('.');
    if (first === 'tips' && third === 'hazards') found.set(`tips.${name}.hazards`, `${name}: all hazards`);
    if (first === 'workflows' && third === 'steps') found.set(`workflows.${name}.steps`, `${name}: all step times`);
  }
  return [...found].map(([path, description]) => ({ path, description }));
}

function amount({ value, low, high }: InformationValue): Amount {
  return { value, low, high };
}

function larger(one: InformationValue, other: InformationValue): InformationValue {
  return other.value > one.value ? other : one;
}

/** In what share of draws one chooses otherwise than were all known. */
function wrong(choices: readonly number[], best: readonly number[]): number {
  return choices.filter((choice, draw) => choice !== best[draw]).length / choices.length;
}

/** Which is more, by the first measure in which they differ. */
function compared(one: readonly InformationValue[], other: readonly InformationValue[]): number {
  const at = one.findIndex(({ value }, measure) => value !== other[measure].value);
  return at < 0 ? 0 : one[at].value - other[at].value;
}
