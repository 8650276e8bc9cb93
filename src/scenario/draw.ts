import type { Luck } from '../chance/luck.js';
import { normalQuantile } from '../chance/normal.js';
import { PURPOSES } from '../chance/purpose.js';
import type { LoadedScenario } from './assemble.js';
import { replacing } from './edit.js';
import type { Path } from './places.js';
import { type Moved, moverInside } from './ranges.js';
import { fromScale } from './schema/uncertainty.js';
import { followedAt } from './strategies.js';
import type { UnknownInput } from './uncertainty.js';

/** A value drawn, in the unit used inside. */
export interface DrawnValue extends Moved<number> {
  readonly place: Path;
}

/**
 * Draws the values of these inputs: in the shared part, so that all strategies meet the same ones, but for what a strategy
 * sets itself. What an input is drawn to depends on its path and on the random variation alone (of what both workflows have alike, on the
 * path of the first), not on which others are drawn with it.
 */
export function drawing(loaded: LoadedScenario, inputs: readonly UnknownInput[]): (luck: Luck) => LoadedScenario {
  const drawers = inputs.map(drawerOf);
  const places = inputs.flatMap(({ parameters }) => parameters.map(({ found }) => found.path));
  const intoBase = replacing(places);
  const intoStrategies = loaded.strategies.map(({ own }) => {
    const followed = places.map((place) => followedAt(own, place));
    const isFollowed = followed.map((path) => path !== null);
    return { isFollowed, put: replacing(followed.filter((path) => path !== null)) };
  });
  return (luck) => {
    const values = drawers.flatMap((drawnBy) => drawnBy(luck)).map(({ value }) => value);
    const strategies = loaded.strategies.map((strategy, index) => {
      const { isFollowed, put } = intoStrategies[index];
      const settings = put(
        strategy.settings,
        values.filter((_, i) => isFollowed[i]),
      );
      return settings === strategy.settings ? strategy : { ...strategy, settings };
    });
    return { ...loaded, base: intoBase(loaded.base, values), strategies };
  };
}

/** Draws of the values of an input: normal on their scales, with their covariance. */
export function drawerOf({ parameters, factor }: UnknownInput): (luck: Luck) => readonly DrawnValue[] {
  const ready = parameters.map(({ draw: { path, index }, found, written, scale, centre }) => ({
    // Two numbers of one path, 48 bits in all, so that no two paths of a scenario share their draws.
    ...{ number: numberOf(path, 0x811c9dc5), more: numberOf(path, 0) & 0xffff, index },
    ...{ place: found.path, scale, centre, moved: moverInside(found.leaf, written) },
  }));
  return (luck) => {
    const normals = ready.map(({ number, more, index }) =>
      normalQuantile(luck.uniform(PURPOSES.parameterUncertainty, 0, more, number, index)),
    );
    return ready.map(({ place, scale, centre, moved }, i) => {
      const at = normals.reduce((sum, normal, j) => sum + factor[i][j] * normal, centre);
      return { place, ...moved(fromScale(scale, at)) };
    });
  };
}

/** A number for a path, by which its draws are its own: FNV-1a of 32 bits (G. Fowler, L. C. Noll and K.-P. Vo), over UTF-16. */
function numberOf(path: string, basis: number): number {
  let hash = basis;
  for (let i = 0; i < path.length; i += 1) hash = Math.imul(hash ^ path.charCodeAt(i), 0x01000193);
  return hash >>> 0;
}
