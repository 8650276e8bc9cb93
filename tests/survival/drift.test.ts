import { describe, expect, it } from 'vitest';
import { DRIFT_PARAMETERS, fitDrift, settledRates } from '../../src/survival/drift-fit.js';
import { type DriftEvent, type DriftLaw, eventLogLikelihood, prepared } from '../../src/survival/drift-likelihood.js';
import {
  DRIFT_TIMES as TIMES,
  fittedEvents as fitted,
  MADE_DRIFT as MADE_WITH,
  madeDrift as made,
} from '../support/made-drift.js';
import { nonEmpty } from '../support/non-empty.js';

describe('a fit of drift', () => {
  it('says of a steady rate or a spread that the readings do not tell from none how great it may be at most', () => {
    const { parameters, covariance } = fitted(
      made('rate', 'drift alike', 1, 12, { ...MADE_WITH, geometricSd: 1, steady: 0 }),
      'rate',
    );
    expect(parameters.geometricSd).toMatchObject({ low: 1, isTold: false });
    expect(parameters.geometricSd.high).toBeGreaterThan(1);
    expect(parameters.geometricSd.high).toBeLessThan(1.1);
    expect(parameters.steady).toMatchObject({ low: 0, isTold: false });
    expect(parameters.steady.high).toBeGreaterThan(0);
    expect(parameters.steady.high).toBeLessThan(0.02);
    DRIFT_PARAMETERS.forEach((name, i) => {
      if (parameters[name].value <= (name === 'geometricSd' ? 1 : 0))
        expect(nonEmpty(covariance[i]).every((one) => one === 0)).toBe(true);
      else expect(covariance[i][i]).toBeGreaterThan(0);
    });
  });

  it('gives readings the weight of their stated errors, and says by how much these are off', () => {
    const events = made('rate', 'drift stated', 1, 12);
    const plain = fitted(events, 'rate').parameters;
    const stated = events.map((event) => ({ ...event, errors: TIMES.map(() => 0.01) }));
    const { error, ...rest } = fitted(stated, 'rate').parameters;
    expect(error.value).toBeCloseTo(plain.error.value / 0.01, 4);
    expect(rest.rate.value).toBeCloseTo(plain.rate.value, 6);
    const spoiled = events.map(({ times, values }) => ({
      times,
      values: values.map((value, i) => (i === 3 ? value + 5 : value)),
      errors: TIMES.map((_, i) => (i === 3 ? 1000 : 0.01)),
    }));
    const without = events.map(({ times, values }) => ({
      times: times.toSpliced(3, 1),
      values: values.toSpliced(3, 1),
    }));
    const [with_, left] = [spoiled, without].map((each) => fitted(each, 'rate').parameters);
    for (const name of ['rate', 'geometricSd', 'decay', 'steady'] as const)
      expect(with_[name].value / left[name].value).toBeCloseTo(1, 3);
  });

  it('asks for three disturbances, and for a rate that falls', () => {
    expect(fitDrift(made('rate', 'few', 1, 2), 'rate', 0.95)).toMatchObject({ reason: 'too-few-events', events: 2 });
    const still = made('rate', 'still', 1, 5).map(({ times }) => ({ times, values: times.map(() => -1) }));
    expect(fitDrift(still, 'rate', 0.95)).toMatchObject({ converged: false });
  });

  it('takes displacements from any origin', () => {
    const events = made('displacement', 'origin', 1, 8);
    const shifted = events.map(({ times, values }, j) => ({ times, values: values.map((value) => value + 1000 * j) }));
    const [here, there] = [events, shifted].map((each) => fitted(each, 'displacement'));
    for (const name of DRIFT_PARAMETERS)
      expect(there.parameters[name].value).toBeCloseTo(here.parameters[name].value, 4);
  });
});

describe('the likelihood of one disturbance’s readings', () => {
  /** ∫ over the deviate of the first rate in 4001 small steps, over all of its prior or 12 widths about the top. */
  function bySmallSteps(times: readonly number[], values: readonly number[], law: DriftLaw): number {
    const logJoint = (deviate: number) => {
      const rate = Math.exp(law.logRate + law.rateSd * deviate);
      return times.reduce(
        (sum, time, i) => {
          const off = (values[i] - rate * Math.exp(-time / law.decay) - law.steady) / law.error;
          return sum - (off * off) / 2;
        },
        -(deviate * deviate) / 2,
      );
    };
    const grid = (middle: number, half: number, count: number) =>
      Array.from({ length: count + 1 }, (_, i) => middle + half * ((2 * i) / count - 1));
    let [top, half] = [0, 12];
    for (let count = 0; count < 30; count += 1) {
      const there = grid(top, half, 40);
      top = there.reduce((best, each) => (logJoint(each) > logJoint(best) ? each : best));
      half /= 2;
    }
    const bend = logJoint(top) - (logJoint(top + 1e-4) + logJoint(top - 1e-4)) / 2;
    const reach = Math.min(12, Math.max(40 * Math.sqrt(1e-8 / (2 * bend)), bend > 1e-6 ? 0 : 12));
    const count = 4000;
    const sum = grid(top, reach, count).reduce((all, each) => all + Math.exp(logJoint(each) - logJoint(top)), 0);
    const scatter = times.length * Math.log(law.error * Math.sqrt(2 * Math.PI));
    return logJoint(top) - scatter + Math.log((sum * 2 * reach) / count / Math.sqrt(2 * Math.PI));
  }

  // Few readings and many, precise and not, of rates that lie near the median and far from it.
  const SPREADS = [0.2, 0.5, 1, 1.5, 3];
  it.each(SPREADS)(
    'is that with the first rate integrated out to a millionth, at a spread of ln rate of %d',
    (rateSd) => {
      for (const count of [1, 3, 40])
        for (const error of [0.001, 0.03, 0.3, 3])
          for (const rate of [-0.5, 0.05, 0.3, 1, 3, 12]) {
            const times = Array.from({ length: count }, (_, i) => 30 + (1800 * i) / count);
            const values = times.map((time, i) => rate * Math.exp(-time / 600) + 0.02 + (i % 2 === 0 ? error : -error));
            if (rate < 0 && error < 0.3) continue;
            const law = { logRate: 0.1, rateSd, decay: 500, steady: 0.02, error };
            const wanted = bySmallSteps(times, values, law);
            const found = eventLogLikelihood(prepared({ times, values }, 'rate'), law);
            const said = `${String(count)} readings of ${String(rate)} with error ${String(error)}: ${String(found)}, ${String(wanted)}`;
            expect(Math.abs(found - wanted) / Math.max(1, Math.abs(wanted)), said).toBeLessThan(1e-6);
          }
    },
  );

  it('is that of displacements with their origin anywhere: two say what one rate between them does', () => {
    const law = { logRate: 0.1, rateSd: 0.8, decay: 1e9, steady: 0.02, error: 5 };
    const moved = prepared({ times: [100, 400], values: [7, 200] }, 'displacement');
    // With no decay to speak of, the rate (200 − 7) / 300 has the error √2 · 5 / 300; the change of scale is 300 / √2.
    const rate = prepared({ times: [0], values: [193 / 300] }, 'rate');
    const asRate = eventLogLikelihood(rate, { ...law, error: (Math.SQRT2 * 5) / 300 });
    expect(eventLogLikelihood(moved, law)).toBeCloseTo(asRate + Math.log(Math.SQRT2 / 300), 5);
  });
});

describe('rates after a settling time', () => {
  it('are the average and the greatest of each disturbance', () => {
    const read: DriftEvent = { times: [0, 600, 1200, 1800], values: [3, 0.5, 0.2, 0.2] };
    expect(settledRates([read], 'rate', 600)).toEqual([{ average: 0.9 / 3, greatest: 0.5 }]);
    const moved: DriftEvent = { times: [0, 600, 1200, 1800], values: [0, 600, 720, 750] };
    expect(settledRates([moved], 'displacement', 600)).toEqual([{ average: 150 / 1200, greatest: 0.2 }]);
    expect(settledRates([moved], 'displacement', 1800)).toEqual([]);
  });
});
