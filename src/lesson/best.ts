import type { Estimate } from '../statistics/estimate.js';

/** The one with which a good image takes least time. @param points at least one */
export function bestOf<Point extends { readonly perGood: Estimate }>(points: readonly Point[]): Point {
  return points.reduce((least, each) => (each.perGood.value < least.perGood.value ? each : least));
}
