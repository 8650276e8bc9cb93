import { exp, expm1, ln } from '../chance/elementary.js';
import type { LifeDistribution } from '../chance/life.js';
import type { IntervalCurve } from './turnbull.js';

/** How far a fitted distribution lies from the curve that no distribution was assumed for. */
export interface Distance {
  /** Kolmogorov and Smirnov's D: the largest gap, and its parts above and below the distribution. */
  readonly largest: number;
  readonly above: number;
  readonly below: number;
  /** Cramér and von Mises' W², n times the squared gap, averaged over the distribution. */
  readonly cramerVonMises: number;
  /** Anderson and Darling's A², the same with gaps in the tails weighing more. */
  readonly andersonDarling: number;
}

/** A stretch of exposure over which the curve is level. */
interface Level {
  readonly from: number;
  readonly to: number;
  /** Share of tips failed there. */
  readonly failed: number;
}

function levelsOf({ cells }: IntervalCurve, last: number): Level[] {
  const levels: Level[] = [];
  let from = 0;
  let failed = 0;
  for (const cell of cells) {
    levels.push({ from, to: Math.min(cell.from, last), failed });
    failed += cell.mass;
    from = cell.to;
  }
  // All have failed: from there on the curve is known for ever.
  if (from < Infinity) levels.push({ from, to: Infinity, failed: 1 });
  return levels;
}

/** A product that is nothing where its factor is nothing, however large the other is. */
function times(factor: number, value: number): number {
  return factor === 0 ? 0 : factor * value;
}

/**
 * Distances of a curve from a distribution, taken wherever the curve is known. On complete lives they are the statistics of R. B. D'Agostino and M. A.
 * Stephens, Goodness-of-Fit Techniques, 1986, chapter 4; on censored ones the integrals stop at the last life (J. A. Koziol and S. B. Green,
 * Biometrika 63, 465, 1976, for W²).
 * @param size number of lives, n
 */
export function distanceOf(curve: IntervalCurve, distribution: LifeDistribution, size: number): Distance {
  const ends = curve.cells.flatMap(({ from, to }) => (to < Infinity ? [from, to] : [from]));
  const last = ends.reduce((most, end) => Math.max(most, end), 0);
  let above = 0;
  let below = 0;
  let squared = 0;
  let weighted = 0;
  for (const { from, to, failed } of levelsOf(curve, last)) {
    const hazards = {
      from: distribution.cumulativeHazard(from),
      to: to === Infinity ? Infinity : distribution.cumulativeHazard(to),
    };
    const low = -expm1(-hazards.from);
    const high = -expm1(-hazards.to);
    above = Math.max(above, failed - low);
    below = Math.max(below, high - failed);
    const cubed = (gap: number) => (gap * gap * gap) / 3;
    squared += cubed(high - failed) - cubed(low - failed);
    // The integral of (failed - u)² / (u (1 - u)) du is failed² ln u - (1 - failed)² ln(1 - u) - u, and ln(1 - u) is minus the hazard.
    const left = 1 - failed;
    weighted += times(failed * failed, ln(high) - ln(low));
    weighted += times(left * left, hazards.to - hazards.from);
    weighted -= exp(-hazards.from) - exp(-hazards.to);
  }
  return {
    largest: Math.max(above, below),
    above,
    below,
    cramerVonMises: size * squared,
    andersonDarling: size * weighted,
  };
}
