import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileLife } from '../../src/chance/life.js';
import { aalenJohansen } from '../../src/survival/aalen-johansen.js';
import { curveOf } from '../../src/survival/curve.js';
import { curveQuantile, kaplanMeier } from '../../src/survival/kaplan-meier.js';
import { logRank } from '../../src/survival/log-rank.js';
import { nelsonAalen } from '../../src/survival/nelson-aalen.js';
import { asNoticed, forCause, type Lived, type Observation } from '../../src/survival/observation.js';
import { resampler } from '../../src/survival/resample.js';
import { curveAt, turnbull } from '../../src/survival/turnbull.js';
import { tabled } from '../support/made-lives.js';
import { nonEmpty, perhapsNone } from '../support/non-empty.js';

const RUNS = { seed: 20260101, numRuns: 100 };

const exposure = fc.integer({ min: 1, max: 30 });

/** Lives with ties, in whole exposures. */
const lives: fc.Arbitrary<Lived[]> = fc.array(
  fc.record({ from: exposure, cause: fc.constantFrom('breakage', 'fouling', null) }).map(({ from, cause }) => ({
    entry: 0,
    from,
    to: cause === null ? Infinity : from,
    cause,
  })),
  { minLength: 1, maxLength: 25 },
);

/** Lives known exactly, to an interval or only to be longer, some of them under observation from later on. */
const anyLives: fc.Arbitrary<Observation[]> = fc.array(
  fc
    .record({ entry: fc.integer({ min: 0, max: 5 }), after: exposure, width: fc.constantFrom(0, 0, 1, 3, Infinity) })
    .map(({ entry, after, width }) => ({ entry, from: entry + after, to: entry + after + width })),
  { minLength: 1, maxLength: 20 },
);

describe('the survival curve', () => {
  it('is the share still alive where nothing is censored', () => {
    fc.assert(
      fc.property(fc.array(exposure, { minLength: 1, maxLength: 30 }), (times) => {
        const complete = times.map((time) => ({ entry: 0, from: time, to: time }));
        for (const { time, survival } of nonEmpty(kaplanMeier(complete, 0.95))) {
          const alive = times.filter((one) => one > time).length / times.length;
          expect(Math.abs(survival - alive)).toBeLessThan(1e-12);
        }
      }),
      RUNS,
    );
  });

  it('does not depend on the order of the log', () => {
    fc.assert(
      fc.property(lives, (log) => {
        const turned = [...log].reverse();
        expect(kaplanMeier(turned, 0.9)).toEqual(kaplanMeier(log, 0.9));
        expect(nelsonAalen(turned, 0.9)).toEqual(nelsonAalen(log, 0.9));
        expect(aalenJohansen(turned, ['breakage'], 0.9)).toEqual(aalenJohansen(log, ['breakage'], 0.9));
      }),
      RUNS,
    );
  });

  it('has an interval around it, never beyond 0 and 1', () => {
    fc.assert(
      fc.property(lives, (log) => {
        for (const { survival, low, high } of nonEmpty(kaplanMeier(log, 0.95))) {
          if (low === null || high === null) continue;
          expect(low).toBeGreaterThanOrEqual(0);
          expect(low).toBeLessThanOrEqual(survival);
          expect(high).toBeGreaterThanOrEqual(survival);
          expect(high).toBeLessThanOrEqual(1);
        }
      }),
      RUNS,
    );
  });

  it('refuses lives known only to an interval, and what is no life', () => {
    expect(() => kaplanMeier([{ entry: 0, from: 1, to: 2 }], 0.95)).toThrow(RangeError);
    expect(() => kaplanMeier([{ entry: 3, from: 2, to: 2 }], 0.95)).toThrow('observation 0 is no life');
    expect(() => kaplanMeier([{ entry: 5, from: 5, to: 5 }], 0.95)).toThrow('observation 0 is no life');
    expect(() => turnbull([{ entry: 0, from: 2, to: 1 }])).toThrow('observation 0 is no life');
    expect(() => logRank([[{ entry: 0, from: 1, to: 1 }]])).toThrow(RangeError);
  });

  it('has its median in the middle of a level half', () => {
    const log = [1, 2, 4, 9].map((time) => ({ entry: 0, from: time, to: time }));
    expect(curveQuantile(kaplanMeier(log, 0.95), 0.5).value).toBe(3);
  });
});

describe('the incidences of all causes', () => {
  it('and the survival of all together make one', () => {
    fc.assert(
      fc.property(lives, (log) => {
        const causes = ['breakage', 'fouling'];
        const { causes: shares, survival } = aalenJohansen(log, causes, 0.95);
        const curve = kaplanMeier(log, 0.95).filter(({ events }) => events > 0);
        survival.forEach((left, i) => {
          expect(Math.abs(left - curve[i].survival)).toBeLessThan(1e-12);
          const ended = shares.reduce((sum, { steps }) => sum + steps[i].incidence, 0);
          expect(Math.abs(left + ended - 1)).toBeLessThan(1e-12);
        });
      }),
      RUNS,
    );
  });

  it('have intervals around them, never beyond 0 and 1, but where they are none or all', () => {
    const [end, causes] = [fc.constantFrom('breakage', null), ['breakage', 'fouling']];
    const ofOneCause = fc.array(
      fc.record({ from: exposure, cause: end }).map(({ from, cause }) => ({
        ...{ entry: 0, from, cause },
        to: cause === null ? Infinity : from,
      })),
      { minLength: 1, maxLength: 25 },
    );
    fc.assert(
      fc.property(fc.oneof(lives, ofOneCause), (log) => {
        for (const { steps } of nonEmpty(aalenJohansen(log, causes, 0.95).causes))
          for (const { incidence, low, high, variance } of perhapsNone(steps)) {
            expect(variance).toBeGreaterThanOrEqual(0);
            expect([low === null, high === null]).toEqual(Array(2).fill(incidence === 0 || incidence === 1));
            const shares = [0, low ?? incidence, incidence, high ?? incidence, 1];
            expect(shares).toEqual(shares.toSorted((a, b) => a - b));
          }
      }),
      { ...RUNS, numRuns: 1000 },
    );
  });

  it('come to less than with the other causes censored', () => {
    fc.assert(
      fc.property(lives, (log) => {
        const alone = kaplanMeier(forCause(log, 'breakage'), 0.95);
        for (const { time, incidence } of perhapsNone(
          aalenJohansen(log, ['breakage', 'fouling'], 0.95).causes[0].steps,
        )) {
          const censored = 1 - (alone.findLast((step) => step.time <= time)?.survival ?? 1);
          expect(incidence).toBeLessThanOrEqual(censored + 1e-12);
        }
      }),
      RUNS,
    );
  });
});

describe('the curve of intervals', () => {
  it('is that of Kaplan and Meier where events are known exactly', () => {
    fc.assert(
      fc.property(lives, (log) => {
        const cells = turnbull(log).cells.filter(({ to }) => to < Infinity);
        const points = curveOf(log).cells.filter(({ to }) => to < Infinity);
        expect(cells.map(({ from }) => from)).toEqual(points.map(({ from }) => from));
        cells.forEach(({ mass }, i) => {
          expect(Math.abs(mass - points[i].mass)).toBeLessThan(1e-6);
        });
      }),
      RUNS,
    );
  });

  it('shares out one life in all, each part where some life may have ended', () => {
    fc.assert(
      fc.property(anyLives, (log) => {
        const { cells } = turnbull(log);
        expect(Math.abs(cells.reduce((sum, { mass }) => sum + mass, 0) - 1)).toBeLessThan(1e-6);
        for (const { from, to } of nonEmpty(cells)) {
          expect(log.some((life) => life.from <= from && (to <= life.to || to === Infinity))).toBe(true);
        }
      }),
      RUNS,
    );
  });

  it('is not known inside a cell', () => {
    const curve = turnbull([
      { entry: 0, from: 1, to: 3 },
      { entry: 0, from: 5, to: 6 },
    ]);
    expect([0.5, 1, 2, 3, 4, 5.5, 7].map((at) => curveAt(curve, at))).toEqual([1, 1, null, 0.5, 0.5, null, 0]);
  });
});

describe('the cumulative hazard', () => {
  it('is the sum of events over tips at risk, with Aalen’s variance and an interval on the log scale', () => {
    // Three at risk, then two: 1/3 and 1/3 + 1/2, variances 1/9 and 1/9 + 1/4, by hand.
    const [one, two, sound] = nelsonAalen(tabled([1, 2, 3], [1, 1, 0]), 0.95);
    const by = (hazard: number, variance: number) => Math.exp((1.959963984540054 * Math.sqrt(variance)) / hazard);
    for (const [step, hazard, variance] of [
      [one, 1 / 3, 1 / 9],
      [two, 5 / 6, 13 / 36],
      [sound, 5 / 6, 13 / 36],
    ] as const) {
      expect(step.cumulativeHazard).toBeCloseTo(hazard, 12);
      expect(step.variance).toBeCloseTo(variance, 12);
      expect(step.low).toBeCloseTo(hazard / by(hazard, variance), 9);
      expect(step.high).toBeCloseTo(hazard * by(hazard, variance), 9);
    }
  });

  it('has no interval before the first event', () => {
    expect(nelsonAalen(tabled([1, 2], [0, 1]), 0.95)[0]).toMatchObject({ cumulativeHazard: 0, low: null, high: null });
  });
});

describe('the log-rank test', () => {
  it('takes the last tip at risk for what cannot be otherwise', () => {
    // Mantel’s sums by hand: 2/3 + 1/2 + 1 expected of the first group, variance 2/9 + 1/4 + 0, so χ² = (1/6)² / (17/36).
    const { chiSquare, observed, expected } = logRank([tabled([1, 3]), tabled([2])]);
    expect(observed).toEqual([2, 1]);
    expect(expected[0]).toBeCloseTo(13 / 6, 12);
    expect(chiSquare).toBeCloseTo(1 / 17, 12);
  });
});

describe('a life that was not watched', () => {
  it('changes no curve', () => {
    const log = tabled([3, 5, 8, 9], [1, 0, 1, 0]);
    const nothing: Observation[] = [
      { entry: 0, from: 0, to: Infinity },
      { entry: 6, from: 6, to: Infinity },
    ];
    expect(kaplanMeier([...log, ...nothing], 0.95)).toEqual(kaplanMeier(log, 0.95));
    expect(nelsonAalen([...nothing, ...log], 0.95)).toEqual(nelsonAalen(log, 0.95));
  });

  it('can be in a log that is made anew, and stays what it was', () => {
    const log: Observation[] = [{ entry: 0, from: 0, to: Infinity }, ...tabled([3, 5, 8, 9], [1, 0, 1, 0])];
    const distribution = compileLife({ distribution: 'exponential', mean: 12 });
    const made = resampler(distribution, log)((index) => (((index * 7) % 31) + 0.5) / 31);
    expect(made).toHaveLength(log.length);
    expect(made[0]).toEqual(log[0]);
    expect(made.some(({ to }) => to < Infinity)).toBe(true);
  });
});

describe('a log seen by one cause', () => {
  it('counts other causes as censoring at the last known sound use', () => {
    const log: Lived[] = [
      { entry: 0, from: 5, to: 8, cause: 'fouling' },
      { entry: 1, from: 4, to: 6, cause: 'breakage' },
      { entry: 0, from: 9, to: Infinity, cause: null },
      { entry: 2, from: 2, to: 7, cause: 'fouling' },
    ];
    expect(forCause(log, 'breakage')).toEqual([
      { entry: 0, from: 5, to: Infinity },
      { entry: 1, from: 4, to: 6 },
      { entry: 0, from: 9, to: Infinity },
    ]);
    expect(asNoticed(log).map(({ from, to }) => [from, to])).toEqual([
      [8, 8],
      [6, 6],
      [9, Infinity],
      [7, 7],
    ]);
  });
});
