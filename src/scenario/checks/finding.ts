import type { Path } from '../places.js';
import type { Scenario, WorkflowName } from '../schema/scenario.js';

/** An impossible or doubtful plan: all parts are right for themselves, but do not go together. */
export interface Finding {
  readonly severity: 'error' | 'warning';
  readonly message: string;
  /**
   * Values that together make it so, the most telling first: it is shown at the first of them that the strategy itself
   * overrides, else at the first.
   */
  readonly because: readonly Path[];
  readonly at: 'key' | 'value';
}

/** A check of one strategy as a whole. */
export type Check = (settings: Scenario, workflow: WorkflowName) => readonly Finding[];

export function error(message: string, ...because: readonly Path[]): Finding {
  return { severity: 'error', message, because, at: 'value' };
}

export function warning(message: string, ...because: readonly Path[]): Finding {
  return { severity: 'warning', message, because, at: 'value' };
}
