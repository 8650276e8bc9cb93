import type { Path } from '../places.js';
import type { Pass, Scenario, WorkflowName } from '../schema/scenario.js';
import { soundly } from '../sound.js';

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
  /** Said once for all strategies of which it is true, with their names. */
  readonly naming?: boolean;
}

/** A check of one strategy as a whole. */
export type Check = (settings: Scenario, workflow: WorkflowName) => readonly Finding[];

export function error(message: string, ...because: readonly Path[]): Finding {
  return { severity: 'error', message, because, at: 'value' };
}

export function warning(message: string, ...because: readonly Path[]): Finding {
  return { severity: 'warning', message, because, at: 'value' };
}

/** What `find` says of each pass; nothing of one for which it needs a value that could not be read. */
export function ofEachPass(
  { plan }: Scenario,
  find: (pass: Pass, index: number) => readonly Finding[],
): readonly Finding[] {
  const { passes } = plan;
  return Array.from(passes.keys()).flatMap((index) =>
    soundly(() => passes.slice(index, index + 1).flatMap((pass) => find(pass, index)), []),
  );
}
