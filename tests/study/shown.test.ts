import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import { loadScenario } from '../../src/scenario/load.js';
import { compare } from '../../src/study/compare.js';
import { COMPARED, COMPLETIONS, HEADLINE } from '../../src/study/compared-measures.js';
import { GOALS } from '../../src/study/tune/goals.js';
import { kind, laidOver, pass, type Raw, SCENE } from '../support/stage.js';

const REPLICATIONS = 40;
const BREAKAGE: Raw = { cause: 'breakage', per: 'image', life: { law: 'probability', perUnit: 0.2 } };

function compared(over: Raw) {
  const base = {
    plan: { regions: 3, passes: [pass('a', 10), pass('b', 10)] },
    strategies: [
      { name: 'by hand', workflow: 'swap' },
      { name: 'hopping', workflow: 'hop' },
    ],
  };
  const result = loadScenario(stringify(laidOver(laidOver(SCENE, base), over)));
  if (!result.ok) throw new Error(result.faults.map(({ message }) => message).join('\n'));
  const options = { file: 'scene.yaml', sha256: 'none', toolVersion: '0', replications: REPLICATIONS };
  const { summary, replications } = compare({ ...result.scenario, register: [] }, options);
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
    for (const { replication, percentiles } of shown) {
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
    expect(COMPARED).toEqual(['time', 'operatorTime', 'yield', 'silentBadShare', 'tips', 'cost']);
    const judged: readonly (string | null)[] = [
      ...[...COMPARED, ...COMPLETIONS],
      ...Object.values(GOALS).flatMap(({ of, per }) => [of, per]),
    ];
    expect(judged).not.toContain('apparentYield');
  });
});
