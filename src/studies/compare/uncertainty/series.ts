import { measureOf } from '../../../analysis/differences.js';
import { less, type Numbers } from '../../../statistics/numbers.js';
import type { ByMeasure, Compared } from './draws.js';
import { COMPARED, type ComparedMeasure } from '../../../analysis/compared-measures.js';

type Campaigns = readonly ByMeasure[];

/** A measure of one strategy, or its difference from the first one with common random numbers. */
export interface Series {
  readonly strategy: string;
  readonly measure: ComparedMeasure;
  /** All replications of the comparison, at the scenario's values. */
  readonly compared: Numbers;
  /** The values of other campaigns of all strategies. */
  readonly of: (campaigns: Campaigns) => Numbers;
}

export function ownSeries({ strategies, collectors }: Compared): readonly Series[] {
  return strategies.flatMap(({ name }, i) =>
    COMPARED.map((measure) => ({
      strategy: name,
      measure,
      compared: collectors[i].values[measureOf(measure)],
      of: (campaigns: Campaigns) => campaigns[i][measure],
    })),
  );
}

/** Of every strategy but the first. */
export function differenceSeries({ strategies, collectors }: Compared): readonly Series[] {
  return strategies.slice(1).flatMap(({ name }, place) =>
    COMPARED.map((measure) => {
      const [first, own] = [collectors[0], collectors[place + 1]].map(({ values }) => values[measureOf(measure)]);
      return {
        strategy: name,
        measure,
        compared: less(own, first),
        of: (campaigns: Campaigns) => less(campaigns[place + 1][measure], campaigns[0][measure]),
      };
    }),
  );
}
