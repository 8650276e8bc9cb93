import { LuckTable, PURPOSES } from '../../src/chance/luck.js';
import { fitLife } from '../../src/survival/fit-life.js';
import type { FittedLife } from '../../src/survival/laws.js';
import { LAWS_TO_FIT } from '../../src/survival/laws.js';
import { madeLog } from '../support/made-lives.js';

/** How often intervals held the value that the lives were made with. */
export interface Coverage {
  readonly law: string;
  readonly parameter: string;
  readonly events: number;
  readonly logs: number;
  /** Logs whose likelihood had a top. The others have no interval and count for nothing. */
  readonly fitted: number;
  readonly covered: number;
  /** Intervals with an end that the likelihood did not set. */
  readonly open: number;
}

/** What lives are made with, one of each law that can be fitted. */
export const MADE_WITH: readonly FittedLife[] = [
  { law: 'exponential', mean: 100 },
  { law: 'weibull', shape: 1.8, scale: 100 },
  { law: 'lognormal', median: 100, spread: 2 },
  { law: 'gamma', shape: 2, scale: 50 },
];

/** About one tip is taken off sound for each that fails. */
export const CENSORED_PER_EVENT = 1;

export const LEVEL = 0.95;

/** Coverage of the intervals at 95 % of one law's parameters, over made logs with so many events each. */
export function coverageOf(life: FittedLife, events: number, logs: number, seed: string): Coverage[] {
  const table = new LuckTable(`${seed} ${life.law} ${events}`);
  const truth = new Map<string, number>(Object.entries(life).filter(([, value]) => typeof value === 'number'));
  const { parameters } = LAWS_TO_FIT[life.law];
  const counts = parameters.map(({ name }) => ({ parameter: name, covered: 0, open: 0 }));
  let fitted = 0;
  for (let log = 0; log < logs; log += 1) {
    const luck = table.replication(log);
    let drawn = 0;
    const uniform = () => luck.uniform(PURPOSES.life, 0, 0, 0, drawn++);
    const fit = fitLife(life.law, madeLog({ life, events, censoredPerEvent: CENSORED_PER_EVENT }, uniform), LEVEL);
    if (!fit.converged) continue;
    fitted += 1;
    fit.parameters.forEach(({ name, low, high }, i) => {
      const value = truth.get(name) ?? NaN;
      if ((low ?? 0) <= value && value <= (high ?? Infinity)) counts[i].covered += 1;
      if (low === null || high === null) counts[i].open += 1;
    });
  }
  return counts.map((count) => ({ law: life.law, events, logs, fitted, ...count }));
}
