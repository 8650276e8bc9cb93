import type { LuckTable } from '../../chance/luck.js';
import type { LoadedScenario, Strategy } from '../../scenario/load.js';
import { unknownInputs } from '../../scenario/uncertainty.js';
import { withDraw } from '../../scenario/uncertainty-draw.js';
import type { UnknownInput } from '../../scenario/unknown-input.js';
import { type Runnable, runnable } from '../replicate.js';

/**
 * The strategies as each campaign meets them. What the scenario says that it does not know of hazards is drawn anew for
 * each campaign, for all strategies alike, so that what a share of campaigns needs holds luck and not-knowing both.
 */
export class Players {
  /** What is drawn. */
  readonly inputs: readonly UnknownInput[];
  /** At the scenario's values. */
  readonly usual: readonly Runnable[];

  /** @param changed what is made of every strategy before it is played */
  constructor(
    private readonly loaded: LoadedScenario,
    private readonly table: LuckTable,
    private readonly changed: (strategy: Strategy) => Strategy,
  ) {
    this.inputs = unknownInputs(loaded.raw);
    this.usual = runnable(loaded.strategies.map(changed));
  }

  /** The strategies of one campaign, or only the one at a place. */
  at(replication: number, only: number | null = null): readonly Runnable[] {
    const chosen = <Item>(items: readonly Item[]) => (only === null ? items : items.slice(only, only + 1));
    if (this.inputs.length === 0) return chosen(this.usual);
    const { scenario } = withDraw(this.loaded, this.inputs, this.table.replication(replication));
    return runnable(chosen(scenario.strategies).map(this.changed));
  }
}
