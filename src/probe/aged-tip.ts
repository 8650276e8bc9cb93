import type { Luck } from '../chance/luck.js';
import { cubeRoot } from './blunting.js';
import type { ExposureUnit } from './settings.js';
import type { ScanLoad } from './scan-load.js';
import type { KindModel } from './kind-model.js';
import { Tip, type Use } from './tip.js';
import type { HazardProgress, TipState } from './tip-state.js';

/** What a tip has been through by a moment at which it was sound. */
export interface Age {
  /** Each unit counts for itself: hazards by their own one, blunting by the path. */
  readonly use: Readonly<Use>;
  /** The passes of its kind. It is as if each had been scanned, and approached for, equally often. */
  readonly passes: readonly ScanLoad[];
  /** Apex radius (nm) at that moment where it is known; null: drawn as for a new tip, and worn over its path since. */
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
    hazards: kind.hazards.map(({ per, exposure, life }, index): HazardProgress => {
      const each = timesEach(per, age);
      const been = age.passes.reduce((sum, { pass }) => sum + exposure[pass] * each, 0);
      const progress = fresh.hazards[index];
      return { ...progress, exposure: been, drawn: life.cumulativeHazard(been) + progress.drawn };
    }),
  });
}

function radiusAt(kind: KindModel, fresh: TipState, age: Age): Pick<TipState, 'radius' | 'cube'> {
  const { radius, passes } = age;
  if (radius !== null) return { radius, cube: radius * radius * radius };
  const { blunting } = kind;
  if (blunting === null) return fresh;
  const each = timesEach('distance', age);
  const grown = passes.reduce(
    (sum, { load, path }) => sum + blunting.growth(fresh.wear, load, path * each),
    fresh.cube,
  );
  return { radius: cubeRoot(grown), cube: grown };
}

/** How often each pass was scanned, or approached for, by the use in one unit. */
function timesEach(unit: ExposureUnit, { use, passes }: Age): number {
  const perRound = (of: (scan: ScanLoad) => number) => passes.reduce((sum, scan) => sum + of(scan), 0);
  switch (unit) {
    case 'image':
      return use.images / passes.length;
    case 'approach':
      return use.approaches / passes.length;
    case 'distance':
      return use.path / perRound(({ path }) => path);
    case 'hour':
      return (use.hours * 3600) / perRound(({ scanTime }) => scanTime);
  }
}
