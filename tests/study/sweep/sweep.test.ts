import { describe, expect, it } from 'vitest';
import { sweepWork } from '../../../src/study/sweep/sweep.js';
import type { Sweep } from '../../../src/study/sweep/results.js';
import { readVaried } from '../../../src/study/vary/varied.js';
import { alone } from '../../../src/study/work/alone.js';
import { Stopped, type Work } from '../../../src/study/work/work.js';
import { KNOWN_TEXT, loadedFrom } from '../../support/known-break-even.js';
import { stoppedAfter } from '../../support/stopped.js';

const RECORD = { file: 'known.yaml', sha256: '0', toolVersion: '0', seed: 'sweep' };
const OWN = KNOWN_TEXT.replace(
  '{ name: hop, workflow: hop }',
  '{ name: hop, workflow: hop, pace: { scan: 2, hands: 1 } }',
);

function swept(...asked: Parameters<typeof sweeping>): Sweep {
  return alone(sweeping(...asked));
}

function sweeping(texts: readonly string[], scenario = KNOWN_TEXT, strategy?: string): Work<Sweep> {
  const loaded = loadedFrom(scenario);
  const vary = texts.map((text) => {
    const reading = readVaried(loaded, text, strategy ?? null);
    if (!reading.ok) throw new Error(reading.message);
    return reading.value;
  });
  return sweepWork(loaded, { ...RECORD, vary, ...(strategy === undefined ? {} : { strategy }) });
}

describe('a sweep', () => {
  const grid = swept(['plan.regions=2, 4', 'pace.scan=1, 2, 4']);

  it('has a cell for each strategy at each point of the grid, the last range fastest', () => {
    expect(grid.cells.map(({ settings, strategy }) => [...settings, strategy].join(' '))).toEqual(
      ['2 1', '2 2', '2 4', '4 1', '4 2', '4 4'].flatMap((point) => [`${point} swap`, `${point} hop`]),
    );
    expect(grid.ranges.map(({ path, isChoice }) => [path, isChoice])).toEqual([
      ['plan.regions', false],
      ['pace.scan', false],
    ]);
  });

  it('loses scans as known answer 1 says: Np/(1-p) of them, each as long as its pace makes it', () => {
    // 4 regions: one scan of 60 s is lost on average at pace 1, 15 s at pace 4, exactly a quarter on the same luck. The
    // number lost has standard deviation √(Np)/(1-p) = 1.12; within six standard errors.
    const lost = grid.cells.filter(({ settings, strategy }) => settings[0] === '4' && strategy === 'swap');
    const means = lost.map(({ scanningLost }) => scanningLost.value);
    expect(means[2]).toBeCloseTo(means[0] / 4, 9);
    expect(Math.abs(means[0] - 60)).toBeLessThan((6 * 1.12 * 60) / Math.sqrt(grid.replications));
  });

  it('finds the fastest pace best in time where haste harms nothing, and yields all alike', () => {
    const best = grid.best.filter(({ strategy }) => strategy === 'swap');
    expect(best.map(({ respect }) => respect)).toEqual(['time', 'operatorTime', 'yield', 'cost']);
    expect(best[0].settings).toEqual(['2', '4']);
    expect(best[2].alike).toHaveLength(5);
    expect(grid.answer.sentences[0]).toMatch(/^Nothing in /u);
    expect(grid.answer.sentences[1]).toMatch(
      /^“swap”: the least instrument time, .* comes with plan\.regions = 2 and pace\.scan = 4/u,
    );
  });

  it('says which strategy does not follow, and sweeps it where it is named', () => {
    const shared = swept(['pace.scan=1, 4'], OWN);
    expect(shared.strategies.map(({ name, follows }) => [name, follows])).toEqual([
      ['swap', true],
      ['hop', false],
    ]);
    expect(shared.answer.sentences.join(' ')).toContain('“hop” does not follow pace.scan');
    const own = swept(['pace.scan=1, 4'], OWN, 'hop');
    expect(own.strategies).toEqual([{ name: 'hop', workflow: 'hop', follows: true }]);
    expect(own.cells.map(({ strategy }) => strategy)).toEqual(['hop', 'hop']);
  });

  it('says of what is quick and cheap because campaigns end early that they are never finished', () => {
    // Two tips, changed after each image, are gone after two images of six.
    const scarce = swept(['rules.after=none, 1 image'], `${KNOWN_TEXT}stock: { tips: { tip: 2 } }\n`, 'swap');
    const [time, , cost] = scarce.best;
    expect(time).toMatchObject({ settings: ['1 image'], finishes: 0 });
    expect(cost.finishes).toBeLessThan(1);
    expect(scarce.answer.sentences[0]).toMatch(/; but 100\.0 % of its campaigns are never finished/u);
    expect(grid.answer.sentences.join(' ')).not.toContain('never finished');
  });

  it('has the same bytes each time', () => {
    expect(JSON.stringify(swept(['pace.scan=1, 2']))).toBe(JSON.stringify(swept(['pace.scan=1, 2'])));
  });
});

describe('a sweep that is stopped by hand', () => {
  const texts = ['plan.regions=2, 4', 'pace.scan=1, 2, 4'];

  it('says what the last whole round came to, however much of the next is there, and decides nothing', () => {
    const whole = swept(texts);
    const stopped = [0, 0.5, 1].map((share) => stoppedAfter(sweeping(texts), 1, share));
    for (const each of stopped) {
      expect(each.replications).toBe(100);
      expect(each.replications).toBeLessThan(whole.replications);
      expect(each.stopping).toBe('stopped by hand after 100 replications, before all were run');
      expect(each.answer.decided).toBe(false);
      expect(each.answer.sentences[0]).toBe(`Not decided: ${each.stopping}.`);
      expect(each.warnings).toContain(each.stopping);
      expect(each.cells).toEqual(stopped[0].cells);
      expect(each.best).toEqual(stopped[0].best);
      expect(each.cells.map(({ at }) => at)).toEqual(whole.cells.map(({ at }) => at));
    }
  });

  it('has nothing to say before the first round is whole', () => {
    expect(() => stoppedAfter(sweeping(texts), 0)).toThrow(Stopped);
  });
});
