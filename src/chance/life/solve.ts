/** More halvings than the doubles of any bracket need: reached only where rising is not what its name says. */
const MOST_STEPS = 2200;

/** Relative step below which x no longer changes. */
const LAST_BIT = 1.2e-16;

/**
 * Root x of rising(x) = target in a bracket, to the last bits: Newton's method from the upper end, which halves the bracket wherever a
 * step would leave it.
 * @param slope derivative of rising
 * @param low,high rising(low) <= target <= rising(high)
 * @throws Error if rising does not rise to the target
 */
export function solveIncreasing(
  rising: (x: number) => number,
  slope: (x: number) => number,
  target: number,
  low: number,
  high: number,
): number {
  let below = low;
  let above = high;
  let x = high;
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const excess = rising(x) - target;
    if (excess === 0) return x;
    if (excess > 0) above = x;
    else below = x;
    const newton = x - excess / slope(x);
    const next = newton > below && newton < above ? newton : below + (above - below) / 2;
    if (Math.abs(next - x) <= LAST_BIT * x || next <= below || next >= above) return next;
    x = next;
  }
  throw new Error(`no exposure found for a cumulative hazard of ${target}`);
}
