/** More halvings than any double holds binary digits and exponents for: reached only if H is not what it says. */
const MOST_STEPS = 2200;

/**
 * Root x in [low, high] of rising(x) = target, to the last bits: Newton's method, falling back on halving the bracket wherever a step
 * would leave it.
 * @param slope derivative of rising
 */
export function solveIncreasing(
  rising: (x: number) => number,
  slope: (x: number) => number,
  target: number,
  low: number,
  high: number,
): number {
  let x = high;
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const excess = rising(x) - target;
    if (excess === 0) return x;
    if (excess > 0) high = x;
    else low = x;
    const newton = x - excess / slope(x);
    const next = newton > low && newton < high ? newton : low + (high - low) / 2;
    if (Math.abs(next - x) <= 1e-16 * x || next <= low || next >= high) return next;
    x = next;
  }
  throw new Error(`no exposure found for a cumulative hazard of ${target}`);
}
