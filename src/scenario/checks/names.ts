import { show } from '../show.js';
import { type Check, error } from './finding.js';

/** Indices of names that stood earlier in the list already. */
export function repeated(names: readonly (string | number)[]): readonly number[] {
  return names.flatMap((name, index) => (names.indexOf(name) < index ? [index] : []));
}

/** Two passes of one name could not be told apart in a path or a table. */
export const repeatedPasses: Check = ({ plan }) =>
  repeated(plan.passes.map(({ name }) => name)).map((index) =>
    error(`read the name ${show(plan.passes.at(index)?.name)}, which an earlier pass has; another is wanted`, [
      'plan',
      'passes',
      index,
      'name',
    ]),
  );
