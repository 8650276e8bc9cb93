import { describe, expect, it } from 'vitest';
import { uncertainIn } from '../../../src/analysis/worth/drawn.js';
import { Collector } from '../../../src/execution/collector.js';
import { runnerOf } from '../../../src/execution/experiment.js';
import { runInProcess } from '../../../src/execution/in-process.js';
import { hindcastWork } from '../../../src/studies/hindcast/hindcast.js';
import { type Finished, readFinished } from '../../../src/studies/hindcast/read-finished.js';
import { load } from '../../scenario/sample.js';
import { plainText } from '../../support/scene.js';
import { nonEmpty } from '../../support/non-empty.js';

const scenario = (mean: number) =>
  load(
    plainText({
      regions: 20,
      hazards: [{ cause: 'breakage', per: 'image', life: { distribution: 'exponential', mean: `${mean} images` } }],
      steps: { exchange: 300 },
    }),
  );

/** Campaigns of one laboratory, where tips last so long and all that is only assumed has one value, drawn for it. */
function campaigns(mean: number, count: number, laboratory = 'the lab'): readonly Finished[] {
  const loaded = scenario(mean);
  const [{ name }] = loaded.strategies;
  const inputs = uncertainIn(loaded).map(({ path }) => path);
  const parts = [{ name, over: {} }];
  const runner = runnerOf({ kind: 'drawn', scenario: loaded, inputs, perDraw: count, parts }, laboratory, {});
  const found = new Collector({});
  for (let i = 1; i <= count; i += 1)
    runner.run(i, (_, outcome) => {
      found.add(outcome);
    });
  const { instrumentTime, tips } = found.values;
  return Array.from({ length: count }, (_, i) => ({
    campaign: `c${i}`,
    strategy: name,
    found: { time: instrumentTime[i], tips: tips[i] },
  }));
}

function hindcast(finished: readonly Finished[], replications = 400) {
  const options = { file: 'a.yaml', sha256: '0', toolVersion: '0', campaigns: finished, replications };
  return runInProcess(hindcastWork(scenario(4), options));
}

describe('a hindcast', () => {
  it('does not speak against a scenario whose tips last as long as the lab’s', () => {
    // Thirty campaigns of a laboratory with a fixed seed; one of twenty laboratories would be rejected at this level.
    const { calibration, answer, placed } = hindcast(campaigns(4, 30));
    for (const { test } of nonEmpty(calibration)) expect(test?.pValue).toBeGreaterThan(0.05);
    for (const { inMost } of nonEmpty(calibration)) expect(inMost).toBeGreaterThan(24);
    expect(placed).toHaveLength(60);
    expect(answer.headline[0]).toBe('The test finds nothing against the scenario.');
  });

  it('speaks against a true scenario no more often than its level says, though campaigns share what nobody knows', () => {
    const laboratories = 60;
    let rejected = 0;
    for (let i = 0; i < laboratories; i += 1) {
      const [time] = hindcast(campaigns(4, 6, `laboratory ${i}`), 200).calibration;
      if ((time.test?.pValue ?? 1) < 0.05) rejected += 1;
    }
    // Of 60 at a level of one in twenty, sixteen or more in fewer than one of ten million.
    expect(rejected).toBeLessThan(16);
  });

  it('says which way they lie where tips last an eighth as long, which the range of their life leaves open', () => {
    const { answer } = hindcast(campaigns(0.5, 30));
    expect(answer.decided).toBe(true);
    expect(answer.headline.join(' ')).toContain(
      'Instrument time and tips: high in the prediction, but no farther than chance and the uncertain values allow.',
    );
  });

  it('speaks against a scenario of which no range explains the campaigns, and says which way', () => {
    // No tip ever breaks, in thirty campaigns: of 400 draws two have tips that last as long.
    const { calibration, answer } = hindcast(campaigns(1e6, 30));
    expect(calibration.find(({ measure }) => measure === 'tips')?.test?.pValue).toBeLessThan(0.01);
    expect(answer.decided).toBe(false);
    expect(answer.headline.join(' ')).toContain('Tips: campaigns come to less than the scenario predicts (p = 0.00');
  });

  it('of one campaign is its place in the prediction, without a test', () => {
    const [{ name }] = scenario(4).strategies;
    const of = (tips: number) => hindcast([{ campaign: 'March', strategy: name, found: { tips } }]);
    const { placed, calibration, answer } = of(7);
    expect(placed[0].share).toBeGreaterThan(0.3);
    expect([of(0).placed[0].share, of(1000).placed[0].share]).toEqual([0, 1]);
    expect(calibration[0].test).toBeNull();
    expect(answer.findings[0]).toMatch(/^“March”: tips 7 lies above /u);
  });
});

describe('a table of finished campaigns', () => {
  it('is read with decimal commas, per cents and units, and what is missing is left out', () => {
    const reading = readFinished('Campaign;Strategy;Hours [h];Tips;Yield\nMarch;b;10,5;n/a;93 %\n;;7;4;0.9\n', [
      'a',
      'b',
    ]);
    expect(reading).toEqual({
      ok: true,
      campaigns: [
        { campaign: 'March', strategy: 'b', found: { time: 37_800, yield: 0.93 } },
        { campaign: 'campaign 2', strategy: 'a', found: { time: 25_200, tips: 4, yield: 0.9 } },
      ],
    });
  });

  it('says everything that is wrong with its place', () => {
    const faults = (text: string) => {
      const reading = readFinished(text, ['swap', 'hop']);
      return reading.ok ? [] : reading.faults.map(({ line, column, message }) => `${line}:${column} ${message}`);
    };
    expect(faults('a,b\n1,2\n')[0]).toMatch(/^1:1 no column tells what a campaign came to; `campaign,/u);
    expect(faults('strategy,hours,yield\nhopp,ten,120 %\n')).toEqual([
      '2:1 no strategy is called `hopp`; did you mean `hop`?',
      '2:6 read `ten`; a number is wanted',
      '2:10 read `120 %`; a share such as 0.93 or 93 % is wanted',
    ]);
    expect(faults('campaign,hours\nMay,n/a\n')).toEqual(['2:1 this row does not tell what the campaign came to']);
    expect(faults('hours\n')[0]).toMatch(/no campaign stands here/u);
  });
});
