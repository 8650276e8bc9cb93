import { describe, expect, it } from 'vitest';
import { LuckTable } from '../../src/chance/luck.js';
import { agedTip } from '../../src/probe/aged-tip.js';
import { Tip } from '../../src/probe/tip.js';
import { evenKind } from '../support/scene.js';
import { modelWith } from './support.js';

const life = (mean: string | number) => ({ distribution: 'exponential', mean });
const blunting = { wear: { archardK: 0.001, hardness: '12 GPa', geometricSd: 1.4 } };
const use = { images: 30, path: 7, hours: 4, approaches: 9 };

describe('a tip of known age', () => {
  const hazards = [
    { cause: 'breakage', per: 'image', life: life(50) },
    { cause: 'coating', per: 'distance', life: life('40 mm') },
    { cause: 'worn-out', per: 'hour', life: life('20 h'), quality: 0.5 },
    { cause: 'double-tip', per: 'approach', life: life(60), quality: 0.5 },
  ];
  // Two passes that differ in path, time and load.
  const model = modelWith([], {
    tips: { tip: { ...evenKind(hazards), blunting } },
    passes: [
      { size: '1 um', lines: 512, load: '1 nN' },
      { size: '2 um', lines: 128, load: '3 nN' },
    ],
  });
  const [kind] = model.kinds;
  const luck = new LuckTable('aged').replication(1);
  const aged = (radius: number | null) => agedTip(kind, 2, 0, luck, { use, passes: model.passes, radius }).state;
  const fresh = new Tip(kind, 2, 0, luck).state;

  it('has used each life by its own unit, whatever its passes are', () => {
    const exposures = aged(null).hazards.map(({ exposure }) => exposure);
    expect(exposures).toHaveLength(4);
    [use.images, use.path, use.hours, use.approaches].forEach((used, hazard) => {
      expect(exposures[hazard]).toBeCloseTo(used, 9);
    });
    expect(aged(null).use).toEqual(use);
  });

  it('has yet to use what a new tip of its number has, of each life', () => {
    const means = [50, 40, 20, 60];
    aged(null).hazards.forEach(({ exposure, drawn }, hazard) => {
      expect(drawn - exposure / means[hazard]).toBeCloseTo(fresh.hazards[hazard].drawn, 9);
    });
  });

  it('has the radius that was read, or that of a new tip with the wear of its path', () => {
    expect(aged(12)).toMatchObject({ radius: 12, cube: 1728 });
    // Archard: R³ grows by the load over the path. Paths of the passes are as 2·512 to 4·128, of loads 1 and 3.
    const [one, other] = model.passes;
    const share = use.path / (one.path + other.path);
    const grown =
      fresh.cube +
      (kind.blunting?.growth(fresh.wear, 1, one.path * share) ?? NaN) +
      (kind.blunting?.growth(fresh.wear, 3, other.path * share) ?? NaN);
    expect(aged(null).cube).toBeCloseTo(grown, 9);
    expect(aged(null).radius ** 3).toBeCloseTo(grown, 6);
    expect(grown).toBeGreaterThan(fresh.cube);
  });

  it('has the radius of a new tip where it is of a kind that does not blunt', () => {
    const plain = modelWith(hazards);
    const { radius, cube } = agedTip(plain.kinds[0], 0, 0, luck, { use, passes: plain.passes, radius: null }).state;
    expect({ radius, cube }).toEqual({ radius, cube: radius ** 3 });
    expect(radius).toBe(new Tip(plain.kinds[0], 0, 0, luck).radius);
  });
});
