import type { Runnable } from '../../study/replicate.js';
import type { Change } from '../change.js';
import { Refused } from '../changed-scenario.js';
import type { Scenarios } from '../task.js';
import type { StrategyAsked } from './verdict.js';

/** A value of what is varied, and why the scenario makes no sense with it. */
export interface RefusedAt {
  readonly at: number;
  readonly message: string;
}

export interface Settings {
  readonly ready: readonly { readonly at: number; readonly runnable: Runnable }[];
  readonly refused: readonly RefusedAt[];
}

/** One strategy at several values of something, each ready to run; those that the checks of a scenario refuse stand apart. */
export function settingsAt(
  asked: StrategyAsked,
  scenarios: Scenarios,
  values: readonly number[],
  changesAt: (value: number) => readonly Change[],
): Settings {
  const ready: { readonly at: number; readonly runnable: Runnable }[] = [];
  const refused: RefusedAt[] = [];
  for (const at of values) {
    const changes = [...asked.changes, ...changesAt(at)];
    try {
      ready.push({ at, runnable: scenarios.strategy({ ...asked, changes }, asked.strategy) });
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      refused.push({ at, message: error.message });
    }
  }
  return { ready, refused };
}
