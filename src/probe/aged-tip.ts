import type { Luck } from '../chance/luck.js';
import { cubeRoot } from '../scenario/blunting.js';
import type { ScanLoad } from '../scenario/scan-load.js';
import { type KindModel, Tip, type Use } from './tip.js';
import type { HazardProgress, TipState } from './tip-state.js';

/** What a tip has been through by a moment at which it was sound. */
export interface Age {
  readonly use: Readonly<Use>;
  /** Scans and approaches by pass, for their exposures. Fractions count. */
  readonly scans: readonly { readonly scan: ScanLoad; readonly scans: number; readonly approaches: number }[];
  /** Apex radius (nm) at that moment where it is known; null: drawn as for a new tip, and blunted over its path since. */
  readonly radius: number | null;
}

/**
 * A tip that was sound at a known age, with lives drawn given that they have lasted so far: the next event of each hazard
 * comes where its cumulative hazard has grown by a fresh unit exponential, H(x) = H(age) + E, so that the remaining life
 * exceeds t with probability S(age + t) / S(age). The unit exponential, the first radius and the wear coefficient are
 * those that the luck gives a new tip of this number; the wear coefficient is not conditioned.
 */
export function agedTip(kind: KindModel, number: number, instrument: number, luck: Luck, age: Age): Tip {
  const fresh = new Tip(kind, number, instrument, luck).state;
  return new Tip(kind, number, instrument, luck, {
    ...fresh,
    use: age.use,
    ...radiusAt(kind, fresh, age),
    hazards: kind.hazards.map(({ perApproach, exposure, life }, index): HazardProgress => {
      const been = age.scans.reduce(
        (sum, { scan, scans, approaches }) => sum + exposure[scan.pass] * (perApproach ? approaches : scans),
        0,
      );
      const progress = fresh.hazards[index];
      return { ...progress, exposure: been, drawn: life.cumulativeHazard(been) + progress.drawn };
    }),
  });
}

function radiusAt(kind: KindModel, fresh: TipState, { radius, scans }: Age): Pick<TipState, 'radius' | 'cube'> {
  if (radius !== null) return { radius, cube: radius * radius * radius };
  const { blunting } = kind;
  if (blunting === null) return fresh;
  const grown = scans.reduce(
    (sum, { scan, scans: count }) => sum + blunting.growth(fresh.wear, scan.load, scan.path * count),
    fresh.cube,
  );
  return { radius: cubeRoot(grown), cube: grown };
}
