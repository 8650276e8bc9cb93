import { measureOf } from '../differences.js';
import type { Compared, DrawnCampaigns } from './draws.js';
import { WEIGHED, type Weighed } from './results.js';

/** A measure of one strategy, or its difference from the first one on the same luck. */
export interface Series {
  readonly strategy: string;
  readonly measure: Weighed;
  /** All replications at the scenario's values. */
  readonly here: readonly number[];
  /** For each draw its replications. */
  readonly rowsIn: (drawn: DrawnCampaigns) => readonly (readonly number[])[];
  /** Campaigns with a draw each. */
  readonly singleIn: (drawn: DrawnCampaigns) => readonly number[];
}

export function ownSeries({ strategies, collectors, time }: Compared): readonly Series[] {
  return strategies.flatMap(({ name }, i) =>
    WEIGHED.map((measure) => ({
      strategy: name,
      measure,
      here: collectors[i].values[measureOf(measure, time)],
      rowsIn: ({ rows }: DrawnCampaigns) => rows[i][measure],
      singleIn: ({ single }: DrawnCampaigns) => single[i][measure],
    })),
  );
}

/** Of every strategy but the first. */
export function differenceSeries({ strategies, collectors, time }: Compared): readonly Series[] {
  return strategies.slice(1).flatMap(({ name }, place) =>
    WEIGHED.map((measure) => {
      const [first, own] = [collectors[0], collectors[place + 1]].map(({ values }) => values[measureOf(measure, time)]);
      return {
        strategy: name,
        measure,
        here: less(own, first),
        rowsIn: ({ rows }: DrawnCampaigns) =>
          rows[place + 1][measure].map((row, draw) => less(row, rows[0][measure][draw])),
        singleIn: ({ single }: DrawnCampaigns) => less(single[place + 1][measure], single[0][measure]),
      };
    }),
  );
}

function less(a: readonly number[], b: readonly number[]): readonly number[] {
  return a.map((value, i) => value - b[i]);
}
