import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { LEVEL } from '../../src/analysis/differences.js';
import { readVaried } from '../../src/analysis/vary/varied.js';
import { runInProcess } from '../../src/execution/in-process.js';
import { alongWork, tunedWork } from '../../src/explore/engine/along.js';
import { type Along, rangeText } from '../../src/explore/engine/along-values.js';
import { breakEvenTexts } from '../../src/explore/parts/along-chart.js';
import { loadScenario } from '../../src/scenario/load.js';
import { tune } from '../../src/studies/tune/tune.js';
import { root } from '../support/command.js';

const read = loadScenario(readFileSync(join(root, 'tests/support/small.yaml'), 'utf8'));
if (!read.ok) throw new Error('the scenario is sound');
const loaded = read.scenario;
const [{ name: swap }, { name: hop }] = loaded.strategies;

function along(path: string): Along {
  const found = runInProcess(alongWork(loaded, loaded.base.seed, path));
  if (found === null) throw new Error(`${path} has no range`);
  return found;
}

describe('what strategies come to along one value', () => {
  it('tunes each strategy that follows a value that is chosen, as tune does, in turn', () => {
    let found = along('pace.hands');
    for (const strategy of [swap, hop]) {
      expect(found.isTuning).toBe(strategy);
      const varied = readVaried(loaded, rangeText(found), strategy);
      if (!varied.ok) throw new Error(varied.message);
      found = runInProcess(tunedWork(loaded, found));
      const told = tune(
        loaded,
        {
          ...{ strategy, varied: [varied.value], goal: 'least-time', yieldAtLeast: null, hours: null },
          ...{ confidence: LEVEL, zone: null, maxCampaigns: 30_000, draws: null },
        },
        { file: '', sha256: '', toolVersion: '' },
      );
      if (!told.ok) throw new Error(told.message);
      const at = found.points[told.value.winner ?? -1].at;
      expect(found.tuned.at(-1)).toEqual({ strategy, at, said: told.value.answer.headline });
    }
    expect(found.isTuning).toBeNull();
  });

  it('looks for no best value of what nobody chooses, such as a usual time, nor where no strategy follows', () => {
    expect(along('workflows.swap.steps.exchange.usual')).toMatchObject({ isTuning: null, tuned: [] });
    expect(along('workflows.hop.chip.pitch')).toMatchObject({ isTuning: null, tuned: [] });
  });

  it('goes over half to double of a number that is chosen, in whole numbers where there are no others', () => {
    const { points, slider } = along('plan.regions');
    expect(slider).toMatchObject({ isPlausible: false, isWhole: true, at: 3 });
    expect(points.map(({ at }) => at)).toEqual([2, 3, 4, 5, 6]);
  });

  it('says between which values two strategies break even, by differences that are clear', () => {
    const estimate = (value: number) => ({ value, low: value - 1, high: value + 1 });
    const points = [3, 2, 0, -2].map((value, at) => ({
      ...{ at: at + 1, yield: [] },
      time: [estimate(10), estimate(10 + value)],
      difference: [estimate(0), estimate(value)],
    }));
    const text = breakEvenTexts({ ...along('plan.regions'), points });
    expect(text).toEqual([`“${swap}” and “${hop}” break even between 2 and 4: below, “${swap}” takes less time.`]);
  });

  it('says nothing of two strategies of which neither follows the value', () => {
    expect(breakEvenTexts({ ...along('plan.regions'), points: [] })).toEqual([]);
    expect(breakEvenTexts(along('workflows.swap.steps.exchange.usual'))).toHaveLength(1);
  });
});
