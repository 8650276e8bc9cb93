/** Microseconds in a second. */
export const SECOND = 1_000_000;

/** Seconds as whole microseconds, rounded once. */
export function microseconds(seconds: number): number {
  return Math.floor(seconds * SECOND + 0.5);
}
