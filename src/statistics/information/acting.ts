import { average, type Numbers } from '../numbers.js';
import { Surrogate } from './surrogate.js';

/** So many inputs at most are looked at together. More leave no draws for how they act together. */
const MOST_TOGETHER = 12;

/**
 * The inputs of which a response is to be explained: all where they are few; of many those that alone explain most, one at least,
 * and no other that alone explains nothing.
 * @param responses one value a draw; of several, shares of their mean squares count alike
 * @param inputs draw by draw, independent of each other
 * @returns their numbers, in order
 */
export function actingIn(responses: readonly Numbers[], inputs: readonly Numbers[]): readonly number[] {
  const all = inputs.map((_, input) => input);
  if (inputs.length <= MOST_TOGETHER) return all;
  const spreads = responses.map((response) => squaredError(response, average(response)));
  const gains = inputs.map((input) => {
    const alone = new Surrogate([input]);
    return responses.reduce((sum, response, place) => {
      const left = squaredError(response, alone.expected(response, [0]));
      return spreads[place] > 0 ? sum + 1 - left / spreads[place] : sum;
    }, 0);
  });
  return all
    .toSorted((a, b) => gains[b] - gains[a])
    .slice(0, MOST_TOGETHER)
    .filter((input, place) => place === 0 || gains[input] > 0)
    .toSorted((a, b) => a - b);
}

/** Mean square of what is left of a response beside what was predicted of each value, or of all. */
export function squaredError(values: Numbers, predicted: Numbers | number): number {
  let sum = 0;
  for (let draw = 0; draw < values.length; draw += 1) {
    const left = values[draw] - (typeof predicted === 'number' ? predicted : predicted[draw]);
    sum += left * left;
  }
  return sum / values.length;
}
