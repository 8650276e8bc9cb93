import { describe, expect, it } from 'vitest';
import { compare } from '../../../src/studies/compare/compare.js';
import { COMPARED, COMPLETIONS, HEADLINE } from '../../../src/analysis/compared-measures.js';
import { GOALS } from '../../../src/studies/tune/goals.js';
import type { Raw } from '../../support/run.js';
import { kind, laidOver, pass, SCENE } from '../../support/scene.js';
import { nonEmpty } from '../../support/non-empty.js';
import { loadedOf } from '../../support/run.js';

const REPLICATIONS = 40;
const BREAKAGE: Raw = { cause: 'breakage', per: 'image', life: { distribution: 'probability', perUnit: 0.2 } };

function compared(over: Raw) {
  const base = {
    plan: { regions: 3, passes: [pass('a', 10), pass('b', 10)] },
    strategies: [
      { name: 'by hand', workflow: 'swap' },
      { name: 'hopping', workflow: 'hop' },
    ],
  };
  const result = loadedOf(laidOver(laidOver(SCENE, base), over));
  const options = { file: 'scene.yaml', sha256: 'none', toolVersion: '0', replications: REPLICATIONS };
  const { summary, replications } = compare({ ...result, register: [] }, options);
  return { shown: summary.shown, rows: [...replications] };
}

describe('replications shown', () => {
  const { shown, rows } = compared({ tips: { sharp: kind(BREAKAGE) } });
  const times = ['by hand', 'hopping'].map((name) =>
    rows.filter(({ strategy }) => strategy === name).map(({ measures }) => measures.instrumentTime),
  );

  it('are beside the typical one that nearest the 90th percentile of time, over all strategies', () => {
    const distances = times.map((values) => {
      const mean = values.reduce((sum, value) => sum + value, 0) / REPLICATIONS;
      const deviation = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / REPLICATIONS);
      const sorted = [...values].sort((a, b) => a - b);
      // The quantile of 40 values at 0.9 lies between the 36th and the 37th.
      const centre = (sorted[35] + sorted[36]) / 2;
      return values.map((value) => Math.abs(value - centre) / deviation);
    });
    const worst = Array.from({ length: REPLICATIONS }, (_, i) => Math.max(...distances.map((each) => each[i])));
    expect(shown.map(({ label }) => label)).toEqual(['typical', 'near the 90th percentile of time']);
    expect(shown[1].replication).toBe(worst.indexOf(Math.min(...worst)) + 1);
  });

  it('say of each strategy at what percentile of time, yield and tips they lie', () => {
    for (const { replication, percentiles } of nonEmpty(shown)) {
      percentiles.forEach(({ time }, i) => {
        const own = times[i][replication - 1];
        const below = times[i].filter((value) => value < own).length;
        const equal = times[i].filter((value) => value === own).length;
        expect(time).toBeCloseTo((100 * (below + equal / 2)) / REPLICATIONS, 9);
      });
      expect(percentiles.map(({ strategy }) => strategy)).toEqual(['by hand', 'hopping']);
    }
  });

  it('are the first one alone where all are alike', () => {
    expect(compared({}).shown.map(({ replication, label }) => [replication, label])).toEqual([[1, 'typical']]);
  });
});

describe('measures by which something is judged', () => {
  it('are time, yield and tips first, and the apparent yield never', () => {
    expect(HEADLINE).toEqual(['time', 'yield', 'tips']);
    expect(COMPARED).toEqual(['time', 'operatorTime', 'yield', 'undetectedBadShare', 'tips', 'cost']);
    const judged: readonly (string | null)[] = [
      ...[...COMPARED, ...COMPLETIONS],
      ...Object.values(GOALS).flatMap(({ of, per }) => [of, per]),
    ];
    expect(judged).not.toContain('apparentYield');
  });
});
