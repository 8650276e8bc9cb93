/**
 * A life as its cumulative hazard H(x) = -ln S(x) over exposure x, in whatever unit the life is counted. H is the primitive from which
 * all else follows: a unit exponential E is spent where H(x) = E, and x = exposureAt(-ln u) is a life.
 */
export interface LifeLaw {
  /** H(x), from 0 at x = 0 and never falling. */
  cumulativeHazard(exposure: number): number;
  /** The exposure at which the cumulative hazard reaches h >= 0; Infinity if it never does. */
  exposureAt(hazard: number): number;
}
