import type { LoadedScenario } from '../../src/scenario/load.js';
import { loadedOf, type Raw } from '../support/run.js';
import { laidOver, plainScenario } from '../support/scene.js';

export { SCAN } from '../support/scene.js';

/** The plainest campaign, with both workflows. */
const STILL = laidOver(
  plainScenario({ workflow: 'hop', more: { prepareAt: 'instrument' } }),
  plainScenario({ workflow: 'swap' }),
);

/** That campaign with what a case lays over it, without the register, whose turns cost time and touch no interval. */
export function scene(over: Raw): LoadedScenario {
  return { ...loadedOf(laidOver(STILL, over)), register: [] };
}

/** A kind of tip that an image breaks with a chance. */
export function breaking(perUnit: number): Raw {
  return {
    tip: { hazards: [{ cause: 'breakage', per: 'image', life: { distribution: 'probability', perUnit } }] },
  };
}

/** What a study is told of the file, and its seed. */
export function seeded(seed: string): { seed: string; file: string; sha256: string; toolVersion: string } {
  return { seed, file: 'case.yaml', sha256: '', toolVersion: '0' };
}
