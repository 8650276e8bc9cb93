import { compileLife, type LifeLaw } from '../chance/life.js';
import type { ExposureUnit } from '../scenario/exposure.js';
import { exposurePerScan, type ScanLoad } from '../scenario/scan-load.js';
import type { Cause, Scenario, TipKind } from '../scenario/schema/scenario.js';

/** What an event of a hazard does; a new cause is one entry in `EFFECTS`. */
export interface Effect {
  /** The tip gives no image any more. */
  readonly breaks: boolean;
  /** The tip gives no electrical image any more. */
  readonly uncoats: boolean;
  /** The apex radius jumps, and the hazard runs on. */
  readonly chips: boolean;
  /** The hazard's quality factor holds until it clears. */
  readonly clears: boolean;
}

const NOTHING: Effect = { breaks: false, uncoats: false, chips: false, clears: false };

const EFFECTS: Readonly<Record<Cause, Effect>> = {
  breakage: { ...NOTHING, breaks: true },
  chipping: { ...NOTHING, chips: true },
  fouling: { ...NOTHING, clears: true },
  coating: { ...NOTHING, uncoats: true },
  'worn-out': NOTHING,
};

/** A hazard of a tip kind, ready for use: rates by pass and the life distribution compiled. */
export interface CompiledHazard {
  readonly cause: Cause;
  readonly effect: Effect;
  readonly per: ExposureUnit;
  readonly life: LifeLaw;
  /** By pass: exposure that one whole scan (or one approach for it) adds, accelerated. */
  readonly exposure: readonly number[];
  /** Factor on image quality while the event's mark is on the tip. */
  readonly quality: number;
  /** Mean number of images until it clears; Infinity where it never does. */
  readonly clears: number;
  readonly radiusFactor: { readonly median: number; readonly spread: number };
}

/** Compiles the hazards of a kind for the scans of a plan at the paces of a strategy (1 = usual). */
export function compileHazards(
  kind: TipKind,
  scans: readonly ScanLoad[],
  pace: Scenario['pace'],
): readonly CompiledHazard[] {
  return kind.hazards.map((hazard) => ({
    cause: hazard.cause,
    effect: EFFECTS[hazard.cause],
    per: hazard.per,
    life: compileLife(hazard.life),
    exposure: scans.map((scan) => exposurePerScan(hazard, scan, pace)),
    quality: 'quality' in hazard ? hazard.quality : 1,
    clears: 'clears' in hazard && hazard.clears !== 'never' ? hazard.clears : Infinity,
    radiusFactor: 'radiusFactor' in hazard ? hazard.radiusFactor : { median: 1, spread: 1 },
  }));
}
