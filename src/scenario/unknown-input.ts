import type { FoundLeaf } from './leaf-walk.js';
import type { Path } from './places.js';
import type { Written } from './ranges.js';
import type { Parameter, Uncertain } from './schema/uncertainty.js';

/** A map of the scenario that says how far its values are known. */
export interface Carrier extends Uncertain {
  readonly path: Path;
  /** Key under which it says so. */
  readonly key: string | number;
  readonly written: unknown;
}

/** One value of which only so much is known, and where it is normal about which centre. */
export interface UnknownParameter {
  /** As the register and `withValue` take it. */
  readonly path: string;
  readonly found: FoundLeaf;
  readonly written: Written;
  readonly scale: Parameter['scale'];
  readonly centre: number;
  readonly standardDeviation: number;
  /** By which its random number is known: the path of an input, and the place of a parameter in it. */
  readonly draw: { readonly path: string; readonly index: number };
}

/** Values of one map that are uncertain together: jointly normal on their scales. */
export interface UnknownInput {
  /** Path of the map, such as `tips.sharp.hazards.breakage`. */
  readonly path: string;
  /** Such as `sharp, breakage: life`. */
  readonly description: string;
  /** From a fit with its covariance, or from intervals given by hand. */
  readonly from: 'fit' | 'range';
  readonly parameters: readonly UnknownParameter[];
  /** Lower triangle L of the covariance L·Lᵀ, row by row. */
  readonly factor: readonly (readonly number[])[];
}
