import { LuckTable } from '../../chance/luck.js';
import type { Strategy } from '../../scenario/load.js';
import { unknownInputs } from '../../scenario/uncertainty.js';
import { withDraw } from '../../scenario/uncertainty-draw.js';
import type { UnknownInput } from '../../scenario/unknown-input.js';
import { replicate, runnable, withCuts } from '../replicate.js';
import type { DrawnPlay, Wants } from './order.js';
import type { Stage } from './stage.js';

/** The column that is 1 in replications in whose draw a value of the input was brought back to what the schema allows, else 0. */
export function clippedColumn({ path }: Pick<UnknownInput, 'path'>): string {
  return `clipped ${path}`;
}

/** Draw 1 has the first `perDraw` replications, draw 2 the next, and so on; what is drawn depends on that number alone. */
export function drawnStage(
  { scenario, inputs: paths, perDraw, parts }: DrawnPlay,
  seed: string,
  { cutAfter }: Wants,
): Stage {
  const table = new LuckTable(seed);
  const inputs = unknownInputs(scenario.raw).filter(({ path }) => paths.includes(path));
  const playersOf = (draw: number) => {
    const drawn = withDraw(scenario, inputs, table.replication(draw));
    const strategies = parts.flatMap(({ name, over }): readonly Strategy[] =>
      drawn.scenario.strategies
        .filter((strategy) => strategy.name === name)
        .map((strategy) => ({ ...strategy, settings: { ...strategy.settings, ...over } })),
    );
    const clipped = inputs.map((input): readonly [string, number] => [
      clippedColumn(input),
      drawn.clipped.includes(input.path) ? 1 : 0,
    ]);
    return {
      draw,
      players: runnable(strategies).map((strategy) => withCuts(strategy, cutAfter)),
      more: Object.fromEntries(clipped),
    };
  };
  let last: ReturnType<typeof playersOf> | null = null;
  return {
    parts: parts.length,
    perform: (replication, put) => {
      const draw = Math.ceil(replication / perDraw);
      const { players, more } = last?.draw === draw ? last : (last = playersOf(draw));
      players.forEach((player, part) => {
        put(part, replicate(player, table, replication), more);
      });
    },
  };
}
