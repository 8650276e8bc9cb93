import { sin } from '../../chance/elementary.js';

/**
 * A tip, apex down: how high (nm) its surface is above the apex at a place (nm) beside it. 0 at the apex, nowhere below;
 * Infinity where there is no tip.
 */
export type TipShape = (x: number, y: number) => number;

/** A cone of half-angle θ (degrees) capped by a tangent sphere of radius R (nm). */
export function roundedCone(radius: number, halfAngle: number): TipShape {
  const sine = sin((halfAngle * Math.PI) / 180);
  const cosine = Math.sqrt(1 - sine * sine);
  const joint = radius * cosine;
  const heightThere = radius * (1 - sine);
  const slope = cosine / sine;
  return (x, y) => {
    const beside = Math.sqrt(x * x + y * y);
    return beside <= joint
      ? radius - Math.sqrt(Math.max(0, radius * radius - beside * beside))
      : heightThere + (beside - joint) * slope;
  };
}

/** Two tips as one: the second has its apex at a place (nm) beside the first one's, `above` it (nm, not negative). */
export function joined(first: TipShape, second: TipShape, at: { x: number; y: number; above: number }): TipShape {
  return (x, y) => Math.min(first(x, y), second(x - at.x, y - at.y) + at.above);
}
