import type { TipStretch } from '../../analysis/results.js';
import { joined, roundedCone, type TipShape } from './tip-shape.js';

/** How a tip is at some moment. */
export interface TipLook {
  readonly state: TipStretch['state'];
  /** Apex radius, nanometres. */
  readonly radius: number;
  /** Half-angle of the cone, degrees. */
  readonly halfAngle: number;
  /** Running number of the tip: what sits on a fouled one differs from tip to tip. */
  readonly number: number;
}

/** A broken tip is drawn as a stump at least this wide (nanometres): how one really looks differs from case to case. */
const STUMP = 120;

/** Shapes of what sits on a fouled tip; of our own invention, to show what lumps and double tips do. */
const LUMPS: readonly { readonly radius: number; readonly x: number; readonly y: number; readonly above: number }[] = [
  // A second apex: everything is seen twice.
  { radius: 6, x: 26, y: 9, above: 0.6 },
  // A lump of dirt: everything has a broad shadow.
  { radius: 30, x: 14, y: -10, above: 0.3 },
  { radius: 9, x: -16, y: 22, above: 0.4 },
];

/** The shape by which a tip is pictured. */
export function shapeOf({ state, radius, halfAngle, number }: TipLook): TipShape {
  if (state === 'broken') return roundedCone(Math.max(STUMP, 5 * radius), halfAngle);
  const apex = roundedCone(radius, halfAngle);
  if (state !== 'fouled') return apex;
  const lump = LUMPS[number % LUMPS.length];
  return joined(apex, roundedCone(lump.radius, halfAngle), lump);
}
