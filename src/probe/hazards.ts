import { compileLife, type LifeDistribution } from '../chance/life.js';
import { type Lognormal, lognormal } from '../chance/scores.js';
import { type Cause, declaredOf, type Effect } from './causes.js';
import { exposurePerScan, type ScanLoad } from './scan-load.js';
import type { ExposureUnit, Pace, TipKind } from './settings.js';

/** A hazard of a tip kind, ready for use: rates by pass and the life distribution compiled. */
export interface CompiledHazard {
  readonly cause: Cause;
  readonly effect: Effect;
  readonly per: ExposureUnit;
  readonly isPerApproach: boolean;
  readonly life: LifeDistribution;
  /** By pass: exposure that one whole scan (or one approach for it) adds, accelerated. */
  readonly exposure: readonly number[];
  /** By pass: scans that add one unit of exposure. */
  readonly scans: readonly number[];
  /** Factor on image quality while the event's mark is on the tip. */
  readonly quality: number;
  /** Mean number of images until it clears; Infinity where it never does. */
  readonly clears: number;
  readonly radiusFactor: Lognormal;
}

/** Compiles the hazards of a kind for the scans of a plan at the paces of a strategy (1 = usual). */
export function compileHazards(kind: TipKind, scans: readonly ScanLoad[], pace: Pace): readonly CompiledHazard[] {
  return kind.hazards.map((hazard) => {
    const exposure = scans.map((scan) => exposurePerScan(hazard, scan, pace));
    return {
      cause: hazard.cause,
      effect: declaredOf(hazard.cause).effect,
      per: hazard.per,
      isPerApproach: hazard.per === 'approach',
      life: compileLife(hazard.life),
      exposure,
      scans: exposure.map((each) => 1 / each),
      quality: 'quality' in hazard ? hazard.quality : 1,
      clears: 'clears' in hazard && hazard.clears !== 'never' ? hazard.clears : Infinity,
      radiusFactor:
        'radiusFactor' in hazard
          ? lognormal(hazard.radiusFactor.median, hazard.radiusFactor.geometricSd)
          : lognormal(1, 1),
    };
  });
}
