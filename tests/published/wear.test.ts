import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { type BluntingLaw, bluntingOf, cubeRoot, missingVolumeFactor } from '../../src/probe/blunting.js';
import { resolutionDistance, resolutionQuality } from '../../src/probe/quality.js';
import { departure, publishedCase } from '../support/check-values.js';
import { plainModel } from '../support/scene.js';

/** The blunting law of a kind as a scenario would say it. */
function lawOf(halfAngle: number, wear: object): BluntingLaw {
  const { settings } = plainModel({
    regions: 1,
    tips: { tip: { radius: { nominal: '10 nm', geometricSd: 1 }, blunting: { halfAngle: `${halfAngle} deg`, wear } } },
  });
  const law = bluntingOf(settings.tips['tip']);
  if (law === null) throw new Error('The kind does not blunt.');
  return law;
}

const wearCase = publishedCase(
  'archard-volume',
  z.object({ K: z.number(), load_nN: z.number(), path_mm: z.number(), hardness_GPa: z.number() }),
  z.object({ volume_nm3: z.number() }),
);
const coneCase = publishedCase(
  'blunted-cone-radius',
  z.object({ halfAngle_deg: z.number(), R0_nm: z.number(), volume_nm3: z.number() }),
  z.object({ R1_nm: z.number(), volume_nm3_from_10_to_20: z.number() }),
);

describe('wear', () => {
  // Archard, J. Appl. Phys. 24, 981 (1953), from memory: V = K·F·s/H.
  it('takes off the volume of Archard’s law, K·F·s/H', () => {
    const { K, load_nN, path_mm, hardness_GPa } = wearCase.inputs;
    const law = lawOf(20, { archardK: K, hardness: `${hardness_GPa} GPa`, geometricSd: 1 });
    const volume = law.growth(law.coefficient.median, load_nN, path_mm) * missingVolumeFactor(20);
    expect(departure(volume, wearCase.expected.volume_nm3)).toBeLessThan(1e-9);
  });

  // Geometry, derived; checked by numeric integration (check-values.json).
  it('rounds a cone of half-angle 20° to the published radius', () => {
    const { halfAngle_deg, R0_nm, volume_nm3 } = coneCase.inputs;
    expect(volume_nm3).toBe(wearCase.expected.volume_nm3);
    const { K, load_nN, path_mm, hardness_GPa } = wearCase.inputs;
    const law = lawOf(halfAngle_deg, { archardK: K, hardness: `${hardness_GPa} GPa`, geometricSd: 1 });
    const radius = cubeRoot(R0_nm ** 3 + law.growth(law.coefficient.median, load_nN, path_mm));
    expect(departure(radius, coneCase.expected.R1_nm)).toBeLessThan(1e-9);
    const from10to20 = missingVolumeFactor(halfAngle_deg) * (20 ** 3 - 10 ** 3);
    expect(departure(from10to20, coneCase.expected.volume_nm3_from_10_to_20)).toBeLessThan(1e-9);
  });
});

// Bustamante & Keller, Physics Today 48(12), 32 (1995), from memory: √(2R)·(√Δz + √(Δz + Δh)), here for equal heights, Δh = 0.
it('two equal features are told apart at the published separation', () => {
  const { inputs, expected } = publishedCase(
    'two-features',
    z.object({ R_nm: z.number(), dz_nm: z.number() }),
    z.object({ d_nm: z.array(z.number()), R_nm_at_d10: z.number() }),
  );
  expect(departure(resolutionDistance(inputs.R_nm, inputs.dz_nm), expected.d_nm[0])).toBeLessThan(1e-9);
  const fine = { size: 100, lines: 256, neededResolution: 10, dip: inputs.dz_nm };
  expect(resolutionQuality(fine, expected.R_nm_at_d10)).toBeCloseTo(1, 9);
  expect(resolutionQuality(fine, expected.R_nm_at_d10 * 1.01)).toBeCloseTo(1 / Math.sqrt(1.01), 9);
});
