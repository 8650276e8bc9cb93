import { nameIn } from '../../scenario/describe.js';
import { moneyScale, numberText, percentText, timeText, withUnit } from '../../wording/numbers.js';
import { counted, quoted } from '../../wording/phrases.js';
import type { Amount, Found, Records, Worth, WorthFound, WorthOfValue } from './results.js';

/** Hours a campaign that nobody plans for (common practice, no source). */
export const SMALL = 5 / 60;

/** How many more records an advice is for. */
export const ADVISED = 10;

export function hoursText(hours: number): string {
  return timeText(hours * 3600);
}

/** How worth is said that a choice has. */
export interface Speaking<Told> {
  /** By what it is chosen. */
  readonly saved: (worth: Told) => Amount;
  readonly text: (amount: number) => string;
  readonly verb: 'save' | 'gain';
  /** Amount a campaign that nobody plans for. */
  readonly small: number;
  /** Of the intervals. */
  readonly level: number;
  /** What one chooses now, in words. */
  readonly choice: string;
}

/** Of the choice between strategies by time. */
export function byTime({ chosen }: Pick<WorthFound, 'chosen'>, level: number): Speaking<Worth> {
  const saved = ({ hours }: Worth) => hours;
  return { saved, text: hoursText, verb: 'save', small: SMALL, level, choice: quoted(chosen.byHours) };
}

/** `1.4 h a campaign (95 % interval 54 min to 1.9 h)` */
function worthText<Told>({ value, low, high }: Amount, { text, level }: Speaking<Told>): string {
  return `${text(value)} a campaign (${percentText(level)} interval ${text(low)} to ${text(high)})`;
}

/** `ten more sharp tips`, `ten timings of swap: exchange, usual time` */
export function recordsText({ what, of, count }: Pick<Records, 'what' | 'of' | 'count'>): string {
  return what === 'tips' ? `${count} more ${of}` : `${counted(count, 'timing')} of ${quoted(of)}`;
}

/** Something that can be measured or recorded by itself. */
interface ToMeasure {
  readonly path: string;
  readonly worth: Amount;
  /** As advice. */
  readonly what: string;
  /** Seconds that it takes to write down; null where it is measured in some other way. */
  readonly effort: number | null;
}

/** Everything that could be measured alone, what is worth most first. */
export function toMeasure<Told>(
  { values, records }: Pick<Found<Told>, 'values' | 'records'>,
  saved: Speaking<Told>['saved'],
): readonly ToMeasure[] {
  const advised = records
    .filter(({ count }) => count === ADVISED)
    .map((each) => ({
      path: each.path,
      worth: saved(each),
      what: `${verbOf(each)} ${recordsText(each)}`,
      effort: each.effort,
    }));
  const singles = values
    .filter(
      ({ isGroup, path }) =>
        !isGroup && !records.some((each) => path === each.path || path.startsWith(`${each.path}.`)),
    )
    .map((each) => ({
      path: each.path,
      worth: saved(each),
      what: `Measure ${quoted(nameIn(each.description))}`,
      effort: null,
    }));
  return [...advised, ...singles].toSorted((a, b) => b.worth.value - a.worth.value);
}

/** What to measure first, and what it is worth, in a few sentences. */
export function adviceOf<Told>(found: Found<Told>, speaking: Speaking<Told>): readonly string[] {
  const { saved, text, verb, small, choice } = speaking;
  const most = saved(found.perfect).value;
  if (most < small)
    return [
      text(most) === text(0)
        ? `Choose ${choice} with what is known: nothing that is uncertain would change the choice.`
        : `Choose ${choice} with what is known: even if all of it were known exactly, that would ${verb} ${text(most)} a campaign at most.`,
    ];
  const [first, ...others] = toMeasure(found, saved);
  if (first.worth.value < small)
    return [
      `Nothing alone is worth more than ${text(first.worth.value)} a campaign: only several values together would change the choice of ${choice}.`,
    ];
  const next = others.at(0)?.worth.value ?? 0;
  const effort = first.effort === null ? ', were it known exactly' : `, for ${timeText(first.effort)} of writing down`;
  return [
    `${first.what} first: worth ${worthText(first.worth, speaking)}${effort}.`,
    `Nothing else alone is worth more than ${text(next)}.`,
  ];
}

/** What is worth most to know for the choice by cost. */
export function costText(values: readonly WorthOfValue[], currency: string): string {
  const singles = values.filter(({ isGroup }) => !isGroup);
  const [first] = singles.toSorted((a, b) => b.cost.value - a.cost.value);
  const amount = withUnit(numberText(first.cost.value), moneyScale(currency));
  return first.cost.value > 0
    ? `For the choice by cost, ${quoted(nameIn(first.description))} is worth most to know: ${amount} a campaign.`
    : 'No value alone would change the choice by cost.';
}

/** How often the choice by time is wrong with what is known now. */
export function wrongText(share: number): string {
  return `With what is known now, the choice by time is wrong in ${percentText(share)} of draws.`;
}

function verbOf({ what }: Pick<Records, 'what'>): string {
  return what === 'tips' ? 'Log' : 'Make';
}
