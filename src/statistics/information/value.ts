import { endingAt, meanInterval } from '../interval.js';
import { average, less, type Numbers, placeOfLeast } from '../numbers.js';
import { actingIn } from './acting.js';
import { Surrogate } from './surrogate.js';

/** What it is worth to know something before one chooses, in the unit of the losses. */
export interface InformationValue {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** Place of what one chooses now. */
  readonly now: number;
  /** What one would choose in each draw, were it known. */
  readonly choices: readonly number[];
}

/**
 * The expected value of partial perfect information: how much less one would lose on average, could one choose with some inputs
 * known, min_d mean(T_d) − mean_i min_d f_d(x_i), with f_d what is to be expected of the loss where they are known (M. Strong,
 * J. E. Oakley and A. Brennan, Med. Decis. Making 34, 311, 2014). Of sample information it is the same with the inputs of the
 * surrogate summaries of simulated data (M. Strong, J. E. Oakley, A. Brennan and P. Breeze, Med. Decis. Making 35, 570, 2015).
 * Only differences from the first choice are fitted, as what all have in common decides nothing. The interval is that of the
 * mean loss avoided, each draw's choice made without it.
 * @param losses choice by choice, draw by draw; at least two choices, with noise or without
 * @param known numbers of the surrogate's inputs
 * @param level of confidence, in (0, 1)
 */
export function valueOfKnowing(
  losses: readonly Numbers[],
  surrogate: Surrogate,
  known: readonly number[],
  level: number,
): InformationValue {
  const differences = differencesOf(losses);
  const expected = differences.map((difference, choice) =>
    choice === 0 ? difference : surrogate.expected(difference, known),
  );
  const now = placeOfLeast(expected.map(average));
  const then = Array.from(losses[0], (_, draw) => placeOfLeast(expected.map((values) => values[draw])));
  const gains = then.map((choice, draw) => expected[now][draw] - expected[choice][draw]);
  const avoided = then.map((choice, draw) => differences[now][draw] - differences[choice][draw]);
  const value = average(gains);
  const { halfWidth } = meanInterval(avoided, level);
  return { value, now, choices: then, ...endingAt({ low: value - halfWidth, high: value + halfWidth }, 0, Infinity) };
}

/** The same of knowing all these columns, of which, where they are many, those that act are looked at. */
export function valueOfKnowingAll(
  losses: readonly Numbers[],
  columns: readonly Numbers[],
  level: number,
): InformationValue {
  const acting = actingIn(differencesOf(losses).slice(1), columns);
  const surrogate = new Surrogate(acting.map((column) => columns[column]));
  return valueOfKnowing(
    losses,
    surrogate,
    acting.map((_, place) => place),
    level,
  );
}

function differencesOf(losses: readonly Numbers[]): readonly Numbers[] {
  return losses.map((loss) => less(loss, losses[0]));
}
