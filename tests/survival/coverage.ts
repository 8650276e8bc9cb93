import { LuckTable, PURPOSES } from '../../src/chance/luck.js';
import { fitLife } from '../../src/survival/fit-life.js';
import { parametersOf } from '../../src/chance/life.js';
import type { FittedLife } from '../../src/survival/distributions.js';
import { toFit } from '../../src/survival/distributions.js';
import { madeLog } from '../support/made-lives.js';

/** How often intervals held the value that the lives were made with. */
export interface Coverage {
  readonly distribution: string;
  readonly parameter: string;
  readonly events: number;
  readonly logs: number;
  /** Logs whose likelihood had a top. The others have no interval and count for nothing. */
  readonly fitted: number;
  readonly covered: number;
  /** Intervals with an end that the likelihood did not set. */
  readonly open: number;
}

/** What lives are made with, one of each distribution that can be fitted. */
export const MADE_WITH: readonly FittedLife[] = [
  { distribution: 'exponential', mean: 100 },
  { distribution: 'weibull', shape: 1.8, scale: 100 },
  { distribution: 'lognormal', median: 100, geometricSd: 2 },
  { distribution: 'gamma', shape: 2, scale: 50 },
];

/** About one tip is taken off sound for each that fails. */
export const CENSORED_PER_EVENT = 1;

export const LEVEL = 0.95;

/** Coverage of the intervals at 95 % of one distribution's parameters, over bootstrap samples with so many events each. */
export function coverageOf(life: FittedLife, events: number, logs: number, seed: string): Coverage[] {
  const table = new LuckTable(`${seed} ${life.distribution} ${events}`);
  const truth = new Map(parametersOf(life).map(({ at: [name], value }) => [name, value]));
  const { parameters } = toFit(life.distribution);
  const counts = parameters.map(({ name }) => ({ parameter: name, covered: 0, open: 0 }));
  let fitted = 0;
  for (let log = 0; log < logs; log += 1) {
    const luck = table.replication(log);
    let drawn = 0;
    const uniform = () => luck.uniform(PURPOSES.life, 0, 0, 0, drawn++);
    const fit = fitLife(
      life.distribution,
      madeLog({ life, events, censoredPerEvent: CENSORED_PER_EVENT }, uniform),
      LEVEL,
    );
    if (!fit.converged) continue;
    fitted += 1;
    fit.parameters.forEach(({ name, low, high }, i) => {
      const value = truth.get(name) ?? NaN;
      if ((low ?? 0) <= value && value <= (high ?? Infinity)) counts[i].covered += 1;
      if (low === null || high === null) counts[i].open += 1;
    });
  }
  return counts.map((count) => ({ distribution: life.distribution, events, logs, fitted, ...count }));
}
