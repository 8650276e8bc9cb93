import type { Path } from '../places.js';
import { entryIn } from '../schema-walk.js';
import type { Pass, Scenario, TipKind, WorkflowName } from '../schema/scenario.js';
import { show } from '../show.js';

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

/** What checks say of a pass. */
interface PassWords {
  /** Its name, as messages show it. */
  readonly called: string;
  /** The kind of tip that it needs: its name, and what the scenario has of it, if anything. */
  readonly tip: string;
  readonly kind: TipKind | undefined;
}

/** What `find` says of each pass. */
export function ofEachPass(
  { plan, tips }: Scenario,
  find: (pass: Pass, index: number, words: PassWords) => readonly Finding[],
): readonly Finding[] {
  return plan.passes.flatMap((pass, index) =>
    find(pass, index, { called: show(pass.name), tip: pass.tip, kind: entryIn(tips, pass.tip) }),
  );
}
