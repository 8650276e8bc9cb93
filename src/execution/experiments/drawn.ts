import { LuckTable } from '../../chance/luck.js';
import type { LoadedScenario, Strategy } from '../../scenario/load.js';
import { inputsNamed } from '../../scenario/assumed-inputs.js';
import { drawing } from '../../scenario/draw.js';
import { replicate, runnable, withCuts } from '../replicate.js';
import type { ExperimentKind } from '../runner.js';

/**
 * Strategies of a scenario with what is uncertain or only assumed drawn anew, for all of them alike. Draw 1 has the first `perDraw`
 * replications, draw 2 the next, and so on; what is drawn depends on that number alone.
 */
export interface DrawnExperiment {
  readonly kind: 'drawn';
  readonly scenario: LoadedScenario;
  /** Paths of the inputs that are drawn. */
  readonly inputs: readonly string[];
  /** Replications of each draw, one after the other. */
  readonly perDraw: number;
  /** Strategies by their names, each with settings that stand in place of its own. */
  readonly parts: readonly { readonly name: string; readonly over: Partial<Strategy['settings']> }[];
}

export const drawn: ExperimentKind<DrawnExperiment> = {
  strategiesOf: ({ scenario, parts }) => partsOf(scenario, parts),
  runnerOf: ({ scenario, inputs: paths, perDraw, parts }, seed, { cutAfter }) => {
    const table = new LuckTable(seed);
    const drawnBy = drawing(scenario, inputsNamed(scenario, paths));
    const prepared = (draw: number) => {
      const changed = drawnBy(table.replication(draw));
      return {
        draw,
        strategies: runnable(partsOf(changed, parts)).map((strategy) => withCuts(strategy, cutAfter)),
      };
    };
    let last: ReturnType<typeof prepared> | null = null;
    return {
      parts: parts.length,
      run: (replication, put) => {
        const draw = Math.ceil(replication / perDraw);
        const { strategies } = last?.draw === draw ? last : (last = prepared(draw));
        strategies.forEach((strategy, part) => {
          put(part, replicate(strategy, table, replication));
        });
      },
    };
  },
};

function partsOf({ strategies }: LoadedScenario, parts: DrawnExperiment['parts']): readonly Strategy[] {
  return parts.flatMap(({ name, over }) =>
    strategies
      .filter((strategy) => strategy.name === name)
      .map((strategy) => ({ ...strategy, settings: { ...strategy.settings, ...over } })),
  );
}
