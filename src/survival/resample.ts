import { ln } from '../chance/elementary.js';
import type { LifeDistribution } from '../chance/life.js';
import { curveOf } from './curve.js';
import { looksOf } from './looks.js';
import { isEvent, isWatched, type Observation } from './observation.js';
import type { MassCell } from './turnbull.js';

/** Uniforms that a life takes: its length, its censoring, whose gap between looks it has, and where in that gap it falls. */
const DRAWS = 4;

/** Makes a log anew from uniforms in (0, 1), drawn by their number. */
export type Resampler = (uniform: (index: number) => number) => Observation[];

/** The cell in which a censoring falls that is known to be no sooner than an exposure. */
function censoringAt(cells: readonly MassCell[], soonest: number, uniform: number): number {
  const possible = cells.filter(({ from }) => from >= soonest);
  let left = uniform * possible.reduce((sum, { mass }) => sum + mass, 0);
  for (const { from, to, mass } of possible) {
    left -= mass;
    if (left < 0) return to === Infinity ? Infinity : from;
  }
  return Infinity;
}

/**
 * New logs of the same tips under a distribution: lives are drawn from it, given that they reach their entry; a tip that was censored keeps its
 * exposure of censoring, one that failed gets one drawn from the Kaplan-Meier curve of censoring beyond its life (the conditional
 * bootstrap, A. C. Davison and D. V. Hinkley, Bootstrap Methods and their Application, 1997, algorithm 3.1). Events are then seen
 * as the log's were (looks.ts).
 */
export function resampler(distribution: LifeDistribution, observations: readonly Observation[]): Resampler {
  const ends = observations
    .filter(isWatched)
    .map(({ entry, from, to }) => ({ entry, from, to: to < Infinity ? Infinity : from }));
  const censorings = ends.some(isEvent) ? curveOf(ends).cells : [];
  const looks = looksOf(observations);
  return (uniform) =>
    observations.map((one, row) => {
      const draw = (which: number) => uniform(DRAWS * row + which);
      const { entry } = one;
      const life = distribution.exposureAt(distribution.cumulativeHazard(entry) - ln(draw(0)));
      const censored = isEvent(one) ? censoringAt(censorings, one.from, draw(1)) : one.from;
      if (!(life < censored)) return { entry, from: censored, to: Infinity };
      return { entry, ...looks.see(life, entry, isEvent(one) ? one.to - one.from : null, draw(2), draw(3)) };
    });
}
