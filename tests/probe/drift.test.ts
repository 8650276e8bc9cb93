import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SECOND } from '../../src/kernel/clock.js';
import { Drift, DISTURBANCE_KINDS, driftQuality, type DriftCourse } from '../../src/probe/drift.js';

const MINUTE = 60 * SECOND;
const SEED = 11;

function drift(handling: number, move = handling, steady = 0): Drift {
  return new Drift({ decay: { handling, move }, steady });
}

// Worked out by hand: ∫ r(t) dt over each image, r(t) = exp(−t/600 s) nm/s.
describe('one disturbance of 1 nm/s that decays in 10 min', () => {
  const once = drift(600);
  once.disturb('handling', 1, 5 * MINUTE);
  const images = [0, 1, 2].map((place) => {
    const start = (5 + 4 * place) * MINUTE;
    return once.displacement(start, start + 4 * MINUTE);
  });

  it('displaces three images of 4 min in a row by 197.8, 132.6 and 88.9 nm', () => {
    // 600·(1 − e^−0.4), and e^−0.4 = 0.670320046 of it each time.
    [197.807972, 132.594649, 88.880851].forEach((displacement, place) => {
      expect(images[place]).toBeCloseTo(displacement, 5);
    });
  });

  it('leaves each the share that its pass tolerates', () => {
    expect(images.map((image) => driftQuality(100, image))).toEqual([100 / images[0], 100 / images[1], 1]);
    expect(driftQuality(100, images[1])).toBeCloseTo(0.754178, 6);
  });

  it('spoils no image of a pass that tolerates any drift', () => {
    expect(driftQuality(undefined, images[0])).toBe(1);
  });
});

describe('waiting', () => {
  it('lasts as long for two like disturbances as for one of twice the rate', () => {
    const two = drift(600);
    two.disturb('handling', 0.5, 0);
    two.disturb('move', 0.5, 0);
    const one = drift(600);
    one.disturb('move', 1, 0);
    expect(two.waitUntil(0.05, 0)).toBe(one.waitUntil(0.05, 0));
  });

  it('of two kinds is where the summed rate has just come down to the limit', () => {
    // By hand: 600·ln(1/0.1) = 1381.6 s for the first alone, after which 0.2·e^(−1381.6/180) = 0.00009 are left of the second;
    // 600·ln(1/(0.1 − 0.00009)) = 1382.1 s.
    const both = drift(600, 180);
    both.disturb('handling', 1, 0);
    both.disturb('move', 0.2, 0);
    expect(both.waitUntil(0.1, 0) / SECOND).toBeCloseTo(1382.1, 0);
  });

  it('is least, from any moment on', () => {
    fc.assert(
      fc.property(schedules(), fc.double({ min: 1e-4, max: 2, noNaN: true }), ({ course, events, end }, limit) => {
        const disturbed = after(course, events);
        const unsteady = after({ ...course, steady: 0 }, events);
        const wait = disturbed.waitUntil(limit, end);
        expect(Number.isInteger(wait)).toBe(true);
        // The two directions of rounding in the logarithm and the exponential.
        expect(unsteady.rateAt(end + wait)).toBeLessThanOrEqual(limit * (1 + 1e-9));
        if (wait > 0) expect(unsteady.rateAt(end + wait - 1)).toBeGreaterThan(limit * (1 - 1e-9));
      }),
      { seed: SEED },
    );
  });

  it('of two kinds that lasts longer than any clock is given as such', () => {
    const endless = drift(1e12, 0.9e12);
    endless.disturb('handling', 5, 0);
    endless.disturb('move', 5, 0);
    expect(endless.waitUntil(0.01, 0)).toBeGreaterThan(Number.MAX_SAFE_INTEGER);
  });

  it('leaves the steady rate out, which no wait brings down', () => {
    const restless = drift(600, 600, 10);
    expect(restless.waitUntil(0.05, 0)).toBe(0);
    restless.disturb('handling', 1, 0);
    const settling = drift(600);
    settling.disturb('handling', 1, 0);
    expect(restless.waitUntil(0.05, 0)).toBe(settling.waitUntil(0.05, 0));
  });
});

describe('drift', () => {
  it('is the integral of its rate over any schedule of disturbances', () => {
    fc.assert(
      fc.property(schedules(), ({ course, events, end }) => {
        const disturbed = after(course, []);
        const leastDecay = Math.min(course.decay.handling, course.decay.move);
        let closed = 0;
        let numeric = 0;
        for (const [place, event] of events.entries()) {
          disturbed.disturb(event.kind, event.rate, event.time);
          const until = events[place + 1]?.time ?? end;
          closed += disturbed.displacement(event.time, until);
          numeric += simpson((time) => disturbed.rateAt(time), event.time, until, leastDecay / 20);
        }
        expect(Math.abs(closed - numeric)).toBeLessThan(1e-6 * (1 + numeric));
      }),
      { seed: SEED },
    );
  });

  it('of a later disturbance takes the place of an earlier one of its kind alone', () => {
    const disturbed = drift(600, 60);
    disturbed.disturb('handling', 2, 0);
    disturbed.disturb('move', 3, 0);
    disturbed.disturb('handling', 0.5, MINUTE);
    expect(disturbed.rateAt(MINUTE)).toBeCloseTo(0.5 + 3 * Math.exp(-1), 12);
  });

  it('displaces no image more that is begun later', () => {
    fc.assert(
      fc.property(schedules(), fc.nat(1e10), fc.nat(1e10), ({ course, events, end }, scan, wait) => {
        const disturbed = after(course, events);
        const [soon, later] = [end, end + wait].map((start) => disturbed.displacement(start, start + scan));
        expect(later).toBeLessThanOrEqual(soon * (1 + 1e-12));
      }),
      { seed: SEED },
    );
  });

  it('is the steady rate alone where nothing disturbs, where a disturbance is of no rate, and where it decays at once', () => {
    const steady = 0.02 * 256;
    expect(drift(600, 600, 0.02).displacement(0, 256 * SECOND)).toBeCloseTo(steady, 12);
    const still = drift(600, 600, 0.02);
    still.disturb('handling', 0, 0);
    expect(still.displacement(0, 256 * SECOND)).toBeCloseTo(steady, 12);
    expect(still.waitUntil(0.05, 0)).toBe(0);
    const brief = drift(1e-9, 600, 0.02);
    brief.disturb('handling', 2, 0);
    expect(brief.displacement(0, 256 * SECOND)).toBeCloseTo(steady, 8);
    expect(brief.waitUntil(0.05, 0)).toBe(1);
  });

  it('taken up as it was written down goes on as it would have', () => {
    const course = { decay: { handling: 600, move: 60 }, steady: 0.01 };
    const before = new Drift(course);
    before.disturb('handling', 1.5, MINUTE);
    const taken = new Drift(course, before.state);
    expect(taken.rateAt(2 * MINUTE)).toBe(before.rateAt(2 * MINUTE));
    expect(taken.waitUntil(0.1, 2 * MINUTE)).toBe(before.waitUntil(0.1, 2 * MINUTE));
  });
});

interface Event {
  readonly kind: (typeof DISTURBANCE_KINDS)[number];
  readonly rate: number;
  readonly time: number;
}

/** Some disturbances in the order of their moments, and a moment after them; decays from seconds to hours. */
function schedules() {
  const decay = fc.double({ min: 5, max: 1e4, noNaN: true });
  return fc
    .record({
      course: fc.record({
        decay: fc.record({ handling: decay, move: decay }),
        steady: fc.double({ min: 0, max: 0.5, noNaN: true }),
      }),
      kinds: fc.array(
        fc.record({
          kind: fc.constantFrom(...DISTURBANCE_KINDS),
          rate: fc.double({ min: 0, max: 5, noNaN: true }),
          gap: fc.integer({ min: 1, max: 3_600_000_000 }),
        }),
        { minLength: 1, maxLength: 8 },
      ),
    })
    .map(({ course, kinds }) => {
      let time = 0;
      const events = kinds.map(({ kind, rate, gap }): Event => ({ kind, rate, time: (time += gap) }));
      return { course, events, end: time + 600 * SECOND };
    });
}

function after(course: DriftCourse, events: readonly Event[]): Drift {
  const disturbed = new Drift(course);
  for (const { kind, rate, time } of events) disturbed.disturb(kind, rate, time);
  return disturbed;
}

/** Simpson's rule in steps (seconds) of no more than `step`; of a twentieth of the decay it is right to some 1e-8. */
function simpson(rateAt: (time: number) => number, from: number, to: number, step: number): number {
  const pairs = Math.ceil((to - from) / (2 * step * SECOND));
  const width = (to - from) / (2 * pairs);
  let sum = rateAt(from) + rateAt(to);
  for (let i = 1; i < 2 * pairs; i += 1) sum += (i % 2 === 1 ? 4 : 2) * rateAt(from + i * width);
  return (sum * width) / 3 / SECOND;
}
