import { lognormalAt, normalQuantile } from '../../src/chance/normal.js';
import { LuckTable, PURPOSES } from '../../src/chance/luck.js';
import { missingVolumeFactor } from '../../src/probe/blunting.js';
import { fitWear, type WearFit, type WearReading } from '../../src/survival/wear.js';

export const MISSING_VOLUME = missingVolumeFactor(20);

/** Tips read new and after two slides at 2 nN, by instruments that err by a twentieth. */
export function madeRadii(tips: number, wearGeometricSd: number, seed: string): WearReading[] {
  const table = new LuckTable(seed);
  return Array.from({ length: tips }, (_, tip) => {
    const luck = table.replication(tip);
    const uniform = (index: number) => luck.uniform(PURPOSES.wear, 0, 0, 0, index);
    const radius = lognormalAt(8, 1.2, uniform(0));
    const wear = lognormalAt(83, wearGeometricSd, uniform(1));
    return [0, 50, 200].map((path, i): WearReading => {
      const true_ = Math.cbrt(radius ** 3 + (wear * 2 * path) / MISSING_VOLUME);
      const error = 0.05 * true_;
      return { tip: `t${tip}`, path, load: 2, radius: true_ + error * normalQuantile(uniform(2 + i)), error };
    });
  }).flat();
}

export function fittedRadii(rows: readonly WearReading[]): WearFit {
  const fit = fitWear(rows, MISSING_VOLUME, 0.95);
  if (!fit.converged) throw new Error(fit.reason);
  return fit;
}
