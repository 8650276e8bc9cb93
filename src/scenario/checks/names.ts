import { regionCount, samplesOf } from '../samples.js';
import { show } from '../show.js';
import { type Check, error } from './finding.js';

/** Indices of names that stood earlier in the list already. */
export function repeated(names: readonly (string | number)[]): readonly number[] {
  return names.flatMap((name, index) => (names.indexOf(name) < index ? [index] : []));
}

/** Two samples of one name could not be told apart either. */
export const repeatedSamples: Check = ({ plan }) =>
  typeof plan.samples === 'number'
    ? []
    : repeated(plan.samples.map(({ name }) => name)).map((index) =>
        error(`duplicate of an earlier sample's name: ${show(samplesOf(plan).at(index)?.name)}; another is wanted`, [
          'plan',
          'samples',
          index,
          'name',
        ]),
      );

const MOST_REGIONS = 100_000;

/** So many regions that no campaign would ever be through. */
export const tooManyRegions: Check = ({ plan }) => {
  const regions = regionCount(plan);
  return regions <= MOST_REGIONS
    ? []
    : [
        error(
          `${regions} regions in all; at most ${MOST_REGIONS} are wanted`,
          ['plan', 'samples'],
          ['plan', 'regions'],
        ),
      ];
};

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
