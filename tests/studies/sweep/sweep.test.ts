import { describe, expect, it } from 'vitest';
import { sweepWork } from '../../../src/studies/sweep/sweep.js';
import type { Sweep } from '../../../src/studies/sweep/results.js';
import { readVaried } from '../../../src/analysis/vary/varied.js';
import { runInProcess } from '../../../src/execution/in-process.js';
import { Stopped, type Work } from '../../../src/execution/work.js';
import { KNOWN_TEXT, loadedFrom } from '../../support/known-break-even.js';
import { said } from '../../support/said.js';
import { plainText } from '../../support/scene.js';
import { stoppedAfter } from '../../support/stopped.js';
import { nonEmpty } from '../../support/non-empty.js';

const RECORD = { file: 'known.yaml', sha256: '0', toolVersion: '0', seed: 'sweep' };
const OWN = KNOWN_TEXT.replace(
  '{ name: hop, workflow: hop }',
  '{ name: hop, workflow: hop, pace: { scan: 2, hands: 1 } }',
);

function swept(...asked: Parameters<typeof sweeping>): Sweep {
  return runInProcess(sweeping(...asked));
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
    // 4 regions: one scan of 60 s is lost on average at pace 1, 15 s at pace 4, exactly a quarter with common random numbers. The
    // number lost has standard deviation √(Np)/(1-p) = 1.12; within six standard errors.
    const lost = grid.cells.filter(({ settings, strategy }) => settings[0] === '4' && strategy === 'swap');
    const means = lost.map(({ scanningLost }) => scanningLost.value);
    expect(means[2]).toBeCloseTo(means[0] / 4, 9);
    expect(Math.abs(means[0] - 60)).toBeLessThan((6 * 1.12 * 60) / Math.sqrt(grid.replications));
  });

  it('finds the fastest pace best in time where haste harms nothing, and yields all alike', () => {
    const best = grid.best.filter(({ strategy }) => strategy === 'swap');
    expect(best.map(({ respect }) => respect)).toEqual(['time', 'timePerGood', 'operatorTime', 'yield', 'cost']);
    expect(best[0].settings).toEqual(['2', '4']);
    expect(best[3].alike).toHaveLength(5);
    expect(grid.answer.remarks[0]).toMatch(/^Nothing in /u);
    expect(grid.answer.headline[0]).toMatch(
      /^“swap” takes the least instrument time, .*, at 2 of “Regions of interest of each sample” and 4 of “Pace of scanning”/u,
    );
  });

  it('says which strategy does not follow, and sweeps it where it is named', () => {
    const shared = swept(['pace.scan=1, 4'], OWN);
    expect(shared.strategies.map(({ name, follows }) => [name, follows])).toEqual([
      ['swap', true],
      ['hop', false],
    ]);
    expect(said(shared.answer).join(' ')).toContain('“hop” does not follow “Pace of scanning”');
    const own = swept(['pace.scan=1, 4'], OWN, 'hop');
    expect(own.strategies).toEqual([{ name: 'hop', workflow: 'hop', follows: true }]);
    expect(own.cells.map(({ strategy }) => strategy)).toEqual(['hop', 'hop']);
  });

  it('says of what is quick and cheap because campaigns end early that they are never finished', () => {
    // Two tips, changed after each image, are gone after two images of six.
    const scarce = swept(['rules.after=none, 1 image'], `${KNOWN_TEXT}stock: { tips: { tip: 2 } }\n`, 'swap');
    const [time, , , , cost] = scarce.best;
    expect(time).toMatchObject({ settings: ['1 image'], finishes: 0 });
    expect(cost.finishes).toBeLessThan(1);
    expect(said(scarce.answer)[0]).toMatch(/; but 100 % of its campaigns are never finished/u);
    expect(said(grid.answer).join(' ')).not.toContain('never finished');
  });

  it('has the same bytes each time', () => {
    expect(JSON.stringify(swept(['pace.scan=1, 2']))).toBe(JSON.stringify(swept(['pace.scan=1, 2'])));
  });
});

/*
 * Known answer 5 of the model: a breakage hazard of 0.125·pace² an image has the least time per good image, 60/pace·exp(0.125·pace²)
 * seconds, at a pace of 2. Of it 60/pace is scanned for good, and the rest in vain, on tips that break. Means lie within six and a
 * half standard errors: chance of a false alarm less than one in a million.
 */
describe('where the gain of a hurry goes', () => {
  const hasty = (alpha: number) =>
    plainText({
      regions: 12,
      hazards: [
        {
          ...{ cause: 'breakage', per: 'image', life: { distribution: 'exponential', mean: 8 } },
          acceleration: { pace: alpha },
        },
      ],
    });
  const along = swept(['pace.scan=1, 1.4, 2, 2.8, 4'], hasty(2));

  it('is told by parts of the instrument time that add up to it', () => {
    for (const { timeParts, measures } of [...along.cells, ...swept(['rules.after=2..4 images']).cells]) {
      const sum = Object.values(timeParts).reduce((total, { value }) => total + value, 0);
      expect(sum).toBeCloseTo(measures.instrumentTime.value, 6);
    }
  });

  it('is scans on tips that break, as many as known answer 5 says', () => {
    for (const { settings, timeParts, timePerGood } of nonEmpty(along.cells)) {
      const pace = Number(settings[0]);
      const perGood = (60 / pace) * Math.exp(0.125 * pace ** 2);
      expect(timeParts['scans kept'].value).toBeCloseTo((12 * 60) / pace, 4);
      const { value, low, high } = timeParts['scans lost to spoiled tips'];
      expect(Math.abs(value - 12 * (perGood - 60 / pace))).toBeLessThan((6.5 * (high - low)) / 2 / 1.96);
      expect(timePerGood?.value).toBeCloseTo((timeParts['scans kept'].value + value) / 12, 6);
    }
  });

  it('is said with the optimum inside the range', () => {
    const text = said(along.answer).join(' ');
    expect(text).toMatch(
      /: from 1 to 2 of “Pace of scanning”, \d+ min is saved \(\d+ min of scans kept\), \d+ min more is spent \(\d+ min of scans lost to spoiled tips\)/u,
    );
    expect(text).toMatch(/; from 2 to 4 of “Pace of scanning”, \d+ min is saved .*, but \d+ min more is spent/u);
    expect(text).toMatch(/is at 2: the optimum lies inside the range\./u);
  });

  it('is said to have no optimum where haste costs nothing, and to end at the slowest where it always costs', () => {
    const free = said(swept(['pace.scan=1, 2, 4'], hasty(0)).answer).join(' ');
    expect(free).toContain('nothing more is lost');
    expect(free).toContain('is at 4, the quickest end: no optimum lies inside the range.');
    const dear = said(swept(['pace.scan=2, 3, 4'], hasty(2)).answer).join(' ');
    expect(dear).toContain('is at 2, the slowest end: no optimum lies inside the range.');
    const alike = said(swept(['pace.hands=1, 2, 4'], plainText({ regions: 4 })).answer).join(' ');
    expect(alike).toContain('with no clear difference from either end: the range shows no optimum.');
    expect(alike).toContain('the yield stays at 100 %');
  });

  it('is not spoken of along what is no hurry', () => {
    expect(said(swept(['rules.after=2..4 images']).answer).join(' ')).not.toContain('is saved');
    expect(said(swept(['pace.scan=1, 2', 'pace.hands=1, 2']).answer).join(' ')).not.toContain('is saved');
  });
});

describe('a sweep that is interrupted', () => {
  const texts = ['plan.regions=2, 4', 'pace.scan=1, 2, 4'];

  it('says what the last whole round came to, however much of the next is there, and decides nothing', () => {
    const whole = swept(texts);
    const stopped = [0, 0.5, 1].map((share) => stoppedAfter(sweeping(texts), 1, share));
    for (const each of nonEmpty(stopped)) {
      expect(each.replications).toBe(100);
      expect(each.replications).toBeLessThan(whole.replications);
      expect(each.stopping).toBe('interrupted after 100 replications, before all were run');
      expect(each.answer.decided).toBe(false);
      expect(said(each.answer)[0]).toBe(`Inconclusive: ${each.stopping}.`);
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
