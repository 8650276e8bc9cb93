import binomialCdf from '@stdlib/stats-base-dists-binomial-cdf';
import { describe, expect, it } from 'vitest';
import { LuckTable, PURPOSES } from '../../src/chance/luck.js';
import { lognormalAt, normalQuantile } from '../../src/chance/normal.js';
import { SECOND } from '../../src/kernel/clock.js';
import { Drift } from '../../src/probe/drift.js';
import { DRIFT_PARAMETERS, type DriftFit, fitDrift, settledRates } from '../../src/survival/drift-fit.js';
import { type DriftEvent, type DriftForm, eventLogLikelihood, prepared } from '../../src/survival/drift-likelihood.js';

const MADE_WITH = { rate: 1, spread: 1.5, decay: 600, steady: 0.03 };
/** Readings every 4 min over 40 min, the first a minute after the disturbance. */
const TIMES = Array.from({ length: 11 }, (_, i) => 60 + 240 * i);
const ERRORS: Readonly<Record<DriftForm, number>> = { rate: 0.02, displacement: 5 };

/** Readings as the simulator's own drift gives them, with a normal error each. */
function made(form: DriftForm, seed: string, sample: number, count: number, law = MADE_WITH): readonly DriftEvent[] {
  const luck = new LuckTable(seed).replication(sample);
  const draw = (event: number, reading: number) => luck.uniform(PURPOSES.logBootstrap, event, reading, 0, 0);
  return Array.from({ length: count }, (_, event) => {
    const drift = new Drift({ decay: { handling: law.decay, move: law.decay }, steady: law.steady });
    drift.disturb('handling', lognormalAt(law.rate, law.spread, draw(event, 0)), 0);
    const exact = (time: number) =>
      form === 'rate' ? drift.rateAt(time * SECOND) : drift.displacement(TIMES[0] * SECOND, time * SECOND);
    const values = TIMES.map((time, i) => exact(time) + ERRORS[form] * normalQuantile(draw(event, i + 1)));
    return { times: TIMES, values };
  });
}

function fitted(events: readonly DriftEvent[], form: DriftForm): DriftFit {
  const fit = fitDrift(events, form, 0.95);
  if (!fit.converged) throw new Error(`no fit: ${fit.reason}`);
  return fit;
}

const FORMS: readonly DriftForm[] = ['rate', 'displacement'];

describe('a fit of drift', () => {
  // 24 samples of 8 disturbances for each form; a count of intervals that hold is refused where so few or fewer would come, at a
  // coverage of 90 % (likelihood ratios are a little short in small samples), with a chance below 1e-7: ten comparisons, one in a million.
  it.each(FORMS)('finds in %ss what they were made with as often as its intervals say', (form) => {
    const SAMPLES = 24;
    const held = new Map<string, number>(DRIFT_PARAMETERS.map((name) => [name, 0]));
    for (let sample = 0; sample < SAMPLES; sample += 1) {
      for (const { name, low, high } of fitted(made(form, 'drift coverage', sample, 8), form).parameters) {
        const truth = name === 'error' ? ERRORS[form] : MADE_WITH[name];
        if ((low ?? 0) <= truth && truth <= (high ?? Infinity)) held.set(name, (held.get(name) ?? 0) + 1);
      }
    }
    for (const [name, count] of held)
      expect(binomialCdf(count, SAMPLES, 0.9), `${name}: ${count} of ${SAMPLES}`).toBeGreaterThan(1e-7);
  });

  it.each(FORMS)('comes close with many %ss', (form) => {
    const { parameters, covariance } = fitted(made(form, 'drift many', 1, 60), form);
    const [rate, spread, decay, steady] = parameters.map(({ value }) => value);
    // Eight standard errors of 60 disturbances, of which the logs of first rates scatter by 0.41: a chance below 1e-14.
    const reach = (8 * Math.log(MADE_WITH.spread)) / Math.sqrt(60);
    expect(Math.abs(Math.log(rate))).toBeLessThan(reach);
    expect(Math.abs(Math.log(Math.log(spread) / Math.log(1.5)))).toBeLessThan(8 / Math.sqrt(120));
    [Math.log(decay / 600), Math.log(steady / 0.03)].forEach((off, i) => {
      expect(Math.abs(off)).toBeLessThan(8 * Math.sqrt(covariance[i + 2][i + 2]));
    });
  });

  it('holds a steady rate or a spread that the readings do not tell from none at none', () => {
    const alike = fitted(made('rate', 'drift alike', 1, 12, { ...MADE_WITH, spread: 1, steady: 0 }), 'rate');
    const told = alike.parameters.filter(({ isTold }) => isTold).map(({ name }) => name);
    expect(told).toEqual(expect.arrayContaining(['rate', 'decay', 'error']));
    for (const { name, value, isTold } of alike.parameters) if (!isTold) expect(value).toBe(name === 'spread' ? 1 : 0);
    expect(alike.covariance).toHaveLength(told.length);
    const [, spread, , steady] = alike.parameters;
    expect(spread.low).toBe(1);
    expect(steady.low).toBe(0);
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
    here.parameters.forEach(({ value }, i) => {
      expect(there.parameters[i].value).toBeCloseTo(value, 4);
    });
  });
});

describe('the likelihood of one disturbance’s readings', () => {
  // Against ∫ over the first rate in small steps of its deviate.
  it.each(FORMS)('is that of %ss with the first rate integrated out', (form) => {
    const [event] = made(form, 'integral', 3, 1);
    const short = prepared({ times: event.times.slice(0, 3), values: event.values.slice(0, 3) }, form);
    const error = form === 'rate' ? 0.1 : 25;
    const law = { logRate: 0.1, rateSd: 0.2, decay: 500, steady: 0.02, error };
    const given = (logRate: number) => Math.exp(eventLogLikelihood(short, { ...law, logRate, rateSd: 1e-6 }));
    const step = 0.01;
    let sum = 0;
    for (let z = -8; z <= 8; z += step)
      sum += (given(law.logRate + law.rateSd * z) * Math.exp((-z * z) / 2) * step) / Math.sqrt(2 * Math.PI);
    expect(eventLogLikelihood(short, law)).toBeCloseTo(Math.log(sum), 3);
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
