import { describe, expect, it } from 'vitest';
import { Finishing } from '../../src/analysis/finishing.js';
import { clopperPearson } from '../../src/statistics/proportion.js';
import { plainModel } from '../support/scene.js';

const HOUR = 3600;
/** Without bookings, from Monday 00:00 on. */
const ANY_TIME = plainModel({ regions: 1 });

describe('when campaigns were finished', () => {
  it('is said by their share at each moment, those of one moment together, and those that never were with none', () => {
    const { chance, curve } = new Finishing(Float64Array.of(5, Infinity, 3, 5, 9), ANY_TIME);
    expect(curve.map(({ time, value }) => [time, value])).toEqual([
      [3, 0.2],
      [5, 0.6],
      [9, 0.8],
    ]);
    expect(chance).toEqual({ value: 0.8, ...clopperPearson(4, 5, 0.95) });
    expect(curve[1]).toEqual({ time: 5, value: 0.6, ...clopperPearson(3, 5, 0.95) });
  });

  it('is an empty curve where none ever was', () => {
    const finishing = new Finishing(
      Float64Array.of(Infinity, Infinity),
      plainModel({ regions: 1, bookings: { hours: 'Mo-Fr 09:00-17:00' } }),
    );
    expect(finishing.curve).toEqual([]);
    expect(finishing.chance.value).toBe(0);
    expect(finishing.bySession).toEqual([]);
  });

  it.each([1000, 200_000])('is shown of %d by 200 moments at even ranks, the last of all among them', (count) => {
    // The last one of all is none of those that are taken evenly.
    const moments = Float64Array.from({ length: count }, (_, i) => (i === count - 2 ? 2 * count : (i * 7919) % count));
    const { curve } = new Finishing(moments, ANY_TIME);
    expect(curve).toHaveLength(200);
    expect(curve.at(-1)).toMatchObject({ time: 2 * count, value: 1 });
    const sorted = moments.slice().sort();
    curve.forEach(({ time, value }, i) => {
      expect(value).toBe((sorted.lastIndexOf(time) + 1) / count);
      expect(Math.abs(value - (i + 1) / 200)).toBeLessThan(0.006);
    });
  });

  it('is not lost where it is rare among very many', () => {
    const moments = new Float64Array(200_000).fill(Infinity);
    for (const [i, place] of [7, 70_001, 150_003].entries()) moments[place] = i + 1;
    const { curve } = new Finishing(moments, ANY_TIME);
    expect(curve.map(({ time, value }) => [time, value])).toEqual([1, 2, 3].map((i) => [i, i / 200_000]));
  });

  it('is counted by the booked hours of sessions, up to those in which the last one comes', () => {
    const model = plainModel({ regions: 1, bookings: { hours: 'Mo-Fr 09:00-17:00', start: 'Mo 09:00' } });
    const { bySession, curve } = new Finishing(Float64Array.of(HOUR, 8 * HOUR, 8 * HOUR + 1, Infinity), model);
    expect(bySession.map(({ session, time, value }) => [session, time / HOUR, value])).toEqual([
      [1, 8, 0.5],
      [2, 32, 0.75],
    ]);
    // On the calendar a night lies between the eighth hour and the next second.
    expect(curve.map(({ time, value }) => [time, value])).toEqual([
      [HOUR, 0.25],
      [8 * HOUR, 0.5],
      [24 * HOUR + 1, 0.75],
    ]);
  });

  it('is the same within an allocation as by the session that ends it', () => {
    const model = plainModel({ regions: 1, bookings: { hours: 'Mo-Fr 09:00-17:00', start: 'Mo 13:00' } });
    const finishing = new Finishing(Float64Array.of(3 * HOUR, 4 * HOUR, 4 * HOUR + 1, 12 * HOUR), model);
    expect(finishing.bySession.map(({ value }) => value)).toEqual([0.5, 1]);
    expect(finishing.within(4 * HOUR).value).toBe(0.5);
    expect(finishing.within(12 * HOUR).value).toBe(1);
  });
});
