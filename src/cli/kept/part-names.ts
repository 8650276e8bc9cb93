import type { Play } from '../../study/work/order.js';

/** Names of the strategies that a play has, in the order of its answers. */
export function partNames(play: Play): readonly string[] {
  switch (play.kind) {
    case 'strategies':
      return play.strategies.map(({ name }) => name);
    case 'drawn':
      return play.parts.map(({ name }) => name);
    case 'continuations':
      return play.courses.map(({ strategy }) => strategy.name);
  }
}
