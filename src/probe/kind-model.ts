import type { Lognormal } from '../chance/scores.js';
import type { BluntingLaw } from './blunting.js';
import type { CompiledHazard } from './hazards.js';

/** A tip kind, ready for use. */
export interface KindModel {
  readonly name: string;
  readonly index: number;
  readonly radius: Lognormal;
  /** Wear coefficient over tips; of no account where it does not blunt. */
  readonly wear: Lognormal;
  readonly blunting: BluntingLaw | null;
  readonly hazards: readonly CompiledHazard[];
}
