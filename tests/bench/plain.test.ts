import { beforeAll, describe, expect, it } from 'vitest';
import { type Measure, MEASURES } from './job.js';
import { PLAIN } from './plain-case.js';
import { readBaselines } from './record.js';
import { apart } from './spread.js';
import { durationAt } from '../../src/chance/duration.js';
import { loadScenario } from '../../src/scenario/load.js';
import { average, variance } from '../support/chance.js';
import { modelOf, runMany } from '../support/run.js';
import { durationOf } from '../../src/scenario/schema/steps.js';
import { nonEmpty } from '../support/non-empty.js';

const CAMPAIGNS = 2000;

describe('the plain case', () => {
  const loaded = loadScenario(PLAIN);
  if (!loaded.ok) throw new Error('plain.yaml does not load');
  const { strategies } = loaded.scenario;
  const { settings } = strategies[0];

  it('is one instrument that swaps probes, always booked, with an operator always present', () => {
    expect(loaded.warnings).toEqual([]);
    expect(strategies.map(({ workflow }) => workflow)).toEqual(['swap']);
    expect(settings.instruments).toBe(1);
    const model = modelOf(PLAIN);
    expect(model.bookings.isAlways).toBe(true);
    expect(model.presence.isAlways).toBe(true);
  });

  it('has sixty regions with three images of 256 s each under one kind of tip', () => {
    const { images, kinds } = modelOf(PLAIN);
    expect(images).toHaveLength(180);
    expect(new Set(images.map(({ region }) => region)).size).toBe(60);
    expect(new Set(images.map(({ pass }) => pass.duration))).toEqual(new Set([256e6]));
    expect(kinds).toHaveLength(1);
    expect(kinds[0].blunting).toBe(null);
    expect(settings.plan.passes.map(({ accept, weight }) => [accept, weight])).toEqual(Array(3).fill([0.8, 1]));
    expect(nonEmpty(settings.plan.passes).every(({ neededResolution }) => neededResolution === undefined)).toBe(true);
  });

  it('has tips that break and foul as the benchmark says', () => {
    expect(settings.tips['probe'].hazards).toMatchObject([
      { cause: 'breakage', per: 'image', life: { distribution: 'weibull', shape: 1.5, scale: 25 } },
      { cause: 'fouling', per: 'image', life: { distribution: 'exponential', mean: 15 }, quality: 0.4, clears: 4 },
    ]);
  });

  it('is reviewed and checked as the benchmark says, and changes a tip at the first doubt', () => {
    const { review, check, watch, attempts } = settings.noticing;
    expect(review).toEqual({ by: 'automatic', time: 20, sensitivity: 0.9, falseAlarm: 0.02 });
    expect(check).toMatchObject({ every: 10, time: 120, sensitivity: 0.95, falseAlarm: 0.02, onNew: false });
    expect(check?.repeatSuspects).toBe(true);
    expect(watch).toBe(undefined);
    expect(attempts).toBe(4);
    expect(settings.rules.cleanFirst.tries).toBe(0);
    expect(settings.rules.recondition.tries).toBe(0);
    expect(settings.workflows.swap.mishandling.probability).toBe(0);
  });

  it('takes the time for each step that the benchmark says', () => {
    const { steps } = settings.workflows.swap;
    const minutes = Object.fromEntries(
      Object.entries(steps)
        // A plan of one sample never comes to it.
        .filter(([name]) => name !== 'changeSample')
        .map(([name, step]) => [
          name,
          [0.5, 0.9].map((u) => Number((durationAt(durationOf(step), u) / 60).toFixed(6))),
        ]),
    );
    expect(minutes).toEqual({
      ...{ setUp: [0, 0], warmUp: [0, 0], retract: [0, 0] },
      ...{ exchange: [3, 5], align: [1.5, 3], resonance: [1, 2], approach: [1.5, 2.5] },
      ...{ relocate: [3, 8], settle: [2, 4], locate: [4, 9] },
    });
    expect(steps.relocate.success).toBe(0.9);
  });
});

/*
 * Two right programs differ by more than four standard errors once in 16 000 pairs of seeds, so one of these ten figures
 * would once in 1600. Both seeds are fixed and either program gives the same figures wherever it runs, so that chance was
 * met once, when the record was made, and cannot fail a later run. In total time four standard errors are 0.7 %.
 */
describe('campaigns of ours', () => {
  let outcomes: readonly Readonly<Record<Measure, number>>[] = [];
  beforeAll(() => {
    outcomes = runMany(modelOf(PLAIN), 'plain 1', CAMPAIGNS).map((outcome) => ({
      ...outcome,
      totalTime: outcome.totalTime / 3600,
    }));
  });
  const ours = (measure: Measure) => {
    const values = outcomes.map((outcome) => outcome[measure]);
    return { mean: average(values), standardError: Math.sqrt(variance(values) / CAMPAIGNS) };
  };

  describe.each(readBaselines().programs)('and of the same case in $name', ({ means }) => {
    it.each(MEASURES)('agree in the mean of %s within four standard errors of the difference', (measure) => {
      expect(apart(ours(measure), means[measure])).toBeLessThanOrEqual(4);
    });
  });
});
