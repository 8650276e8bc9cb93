import { describe, expect, it } from 'vitest';
import { LuckTable } from '../../../src/chance/luck.js';
import { drawerOf } from '../../../src/scenario/draw.js';
import { compare } from '../../../src/studies/compare/compare.js';
import type { Summary } from '../../../src/analysis/results.js';
import { nestedVariance } from '../../../src/statistics/nested-variance.js';
import { Collector } from '../../../src/execution/collector.js';
import { campaignsHere, type Compared, DrawnCampaigns } from '../../../src/studies/compare/uncertainty/draws.js';
import type { DrawSize } from '../../../src/analysis/worth/drawn.js';
import { runnable } from '../../../src/execution/replicate.js';
import type { UnknownInput } from '../../../src/scenario/uncertainty.js';
import { completed } from '../../../src/execution/work.js';
import { load } from '../../scenario/sample.js';
import { resultOf } from '../../support/answered.js';
import { expectMean } from '../../support/agreement.js';
import { variance } from '../../support/chance.js';
import { plainText } from '../../support/scene.js';
import { nonEmpty } from '../../support/non-empty.js';

const IMAGES = 10;
const SCAN = 60;
const CHANGE = 300;
const MEAN = 4;

/** Known answer 1 of the model, with an exponential life whose mean is uncertain; or two such strategies. */
function scenarioWith(covariance: number, strategies = '[{"name":"the only one","workflow":"swap"}]'): string {
  const hazard = {
    cause: 'breakage',
    per: 'image',
    life: { distribution: 'exponential', mean: MEAN },
    uncertainty: { of: ['mean'], covariance: [[covariance]] },
  };
  return plainText({
    regions: 1,
    passes: Array.from({ length: IMAGES }, () => ({})),
    hazards: [hazard],
    steps: { exchange: CHANGE },
  }).replace(/"strategies":.*\}$/u, `"strategies":${strategies}}`);
}

const TWO =
  '[{"name":"slow","workflow":"swap"},{"name":"quick","workflow":"swap","set":{"workflows.swap.steps.exchange.fixed":"290 s"}}]';

/** A breakage in mid-image is noticed at its end, so an image is broken with probability p = 1 − exp(−1/mean). */
function expectedTime(mean: number): number {
  const takes = IMAGES * Math.exp(1 / mean);
  return SCAN * takes + CHANGE * (takes - IMAGES);
}

function summaryOf(text: string, draws = 40): Summary {
  return compare(load(text), {
    ...{ file: 'x.yaml', sha256: '', toolVersion: '0', seed: 'parameter-uncertainty', replications: 60 },
    draws,
  }).summary;
}

function drawnCampaigns(compared: Compared, inputs: readonly UnknownInput[], size: DrawSize): DrawnCampaigns {
  const drawn = new DrawnCampaigns(compared, inputs, size, resultOf(campaignsHere(compared, size)));
  resultOf(completed(drawn.tasks));
  return drawn;
}

describe('the outer loop', () => {
  it('gives each draw the expected time of known answer 1 at the mean life drawn, and their variance apart from luck', () => {
    // 200 draws of 16 replications, fixed seed. The residuals of the draws' means are independent with mean zero
    // (tests/support/agreement.ts: a false alarm once in 1e8 times).
    const loaded = load(scenarioWith(0.09));
    const [draws, replications] = [200, 16];
    const seed = 'known answer 1, mean uncertain';
    const table = new LuckTable(seed);
    const strategies = runnable(loaded.strategies);
    const compared = { loaded, strategies, seed, collectors: [new Collector()] };
    const inputs = loaded.inputs;
    const drawn = drawnCampaigns(compared, inputs, { draws, replications });
    const { groupMeans, between, within } = nestedVariance(
      Array.from({ length: draws }, (_, k) => [
        ...drawn.values[0].time.subarray(k * replications, (k + 1) * replications),
      ]),
    );
    const drawnBy = drawerOf(inputs[0]);
    const exact = groupMeans.map((_, k) => {
      const [{ value }] = drawnBy(table.replication(k + 1));
      return expectedTime(value);
    });
    const residuals = groupMeans.map((mean, k) => mean - exact[k]);
    expectMean(residuals, 0, 0.02 * expectedTime(MEAN), 'residual of a draw');
    // Against the variance of the exact means of these draws the estimate is off by random variation alone: the noise of the groups'
    // means, v = within/16, adds a variance of about 2v²/K + 4·v·between/K. Six standard deviations of that, doubled for
    // means whose noise grows with them, fail by chance less than once in 1e8 times.
    const noise = within / replications;
    const truth = variance(exact);
    const deviation = Math.sqrt((2 * noise * noise + 4 * noise * truth) / draws);
    expect(Math.abs(between - truth)).toBeLessThan(12 * deviation);
    expect(12 * deviation).toBeLessThan(truth);
  });
});

describe('a comparison of what is uncertain', () => {
  it('is silent where nothing is said to be', () => {
    expect(summaryOf(scenarioWith(0.09).replace(/,"uncertainty":\{[^}]*\}/u, '')).parameterUncertainty).toBeNull();
  });

  it('finds random variation alone where the covariance is zero, to the last bit', () => {
    const { parameterUncertainty, strategies, differences } = summaryOf(scenarioWith(0, TWO));
    if (parameterUncertainty === null) throw new Error('nothing drawn');
    for (const each of nonEmpty(parameterUncertainty.strategies)) {
      expect(each.withParameterUncertainty).toEqual(each.randomVariation);
      expect(each.parameterUncertainty).toEqual({ low: each.atValues, high: each.atValues });
      expect(each.variance.parameterUncertainty).toBe(0);
    }
    expect(
      parameterUncertainty.strategies.filter(({ measure }) => measure === 'tips').map(({ atValues }) => atValues),
    ).toEqual(strategies.map(({ measures }) => measures.tips.value));
    const [time] = parameterUncertainty.differences;
    expect(time.atValues).toEqual(differences.find(({ measure }) => measure === 'time')?.estimate);
    expect(time).toMatchObject({ otherSign: 0, turns: false });
  });

  it('widens the span of one campaign, and leaves all of what is open to the only input', () => {
    const { parameterUncertainty, verdict } = summaryOf(scenarioWith(0.25));
    if (parameterUncertainty === null) throw new Error('nothing drawn');
    const [time] = parameterUncertainty.strategies;
    expect(time.withParameterUncertainty.high).toBeGreaterThan(time.randomVariation.high);
    expect(time.parameterUncertainty.low).toBeLessThan(time.atValues);
    expect(time.parameterUncertainty.high).toBeGreaterThan(time.atValues);
    const { values, perfect, records } = parameterUncertainty.worth;
    // Forty draws show most of it, as no more than eight terms are fitted to them.
    expect(values.map(({ indices }) => indices.first > 0.5 && indices.total === indices.first)).toEqual([true]);
    expect(perfect.hours.value).toBe(0);
    expect(records).toEqual([]);
    expect(verdict.findings.join(' ')).toContain('within the uncertainty of “Lifetime, breakage of tip” too');
  });

  it('gives the same for a draw whatever the number of draws, and for a strategy whatever others there are', () => {
    const loaded = load(scenarioWith(0.25, TWO));
    const strategies = runnable(loaded.strategies);
    const compared = {
      loaded,
      strategies,
      seed: 'draws',
      collectors: strategies.map(() => new Collector()),
    };
    const inputs = loaded.inputs;
    const [few, many] = [3, 6].map((draws) => drawnCampaigns(compared, inputs, { draws, replications: 4 }));
    expect(many.values[1].time.slice(0, 12)).toEqual(few.values[1].time);
    // The quicker strategy meets the same breakages: it saves 10 s at each change and nothing else.
    expect(few.values[1].tips).toEqual(few.values[0].tips);
    few.values[0].time.forEach((time, i) => {
      expect(time - few.values[1].time[i]).toBeCloseTo(10 * (few.values[0].tips[i] - 1), 6);
    });
  });

  it('does not try the ends of what it draws', () => {
    const { assumptions } = summaryOf(scenarioWith(0.09, TWO));
    const entry = assumptions.find(({ path }) => path === 'tips.tip.hazards.breakage.life.mean');
    expect(entry).toMatchObject({
      value: '4',
      range: 'known within 2.22 to 7.2',
      reversals: null,
      standing: 'assumed',
    });
  });

  it('says that the verdict is open where the sign of a difference is not known', () => {
    // Where lives are short a long exchange costs more, where they are long a slow scan does.
    const strategies =
      '[{"name":"slow exchange","workflow":"swap","set":{"workflows.swap.steps.exchange.fixed":"600 s"}},{"name":"slow scan","workflow":"swap","pace":{"scan":0.4}}]';
    const { verdict, parameterUncertainty } = summaryOf(scenarioWith(1, strategies), 60);
    const [time] = parameterUncertainty?.differences ?? [];
    expect(time).toMatchObject({ strategy: 'slow scan', measure: 'time', turns: true });
    expect(time.otherSign).toBeGreaterThan(0);
    expect(verdict.decided).toBe(false);
    // First comes that nothing makes the faster scan worse.
    expect(verdict.findings.at(-1)).toMatch(
      /^The difference in instrument time of “slow scan” may be anything from −.* to \+.* within the uncertainty of “Lifetime, breakage of tip”, and has the other sign in \d+ % of draws\.$/u,
    );
  });
});
