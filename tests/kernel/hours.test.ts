import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { WEEK, WeeklyHours, type Span } from '../../src/kernel/hours.js';

const HOUR = 3_600_000_000;
const DAY = 24 * HOUR;
const at = (day: number, hour: number) => day * DAY + hour * HOUR;
/** Monday to Friday, 09:00 to 17:00. */
const office = new WeeklyHours([0, 1, 2, 3, 4].map((day) => ({ from: at(day, 9), to: at(day, 17) })));
/** Friday 22:00 to Saturday 06:00, and Sunday 20:00 to Monday 04:00. */
const nights = new WeeklyHours([
  { from: at(4, 22), to: at(5, 6) },
  { from: at(6, 20), to: at(7, 4) },
]);

describe('weekly hours', () => {
  it('are open from their first instant up to, not including, their last', () => {
    expect(office.isOpen(at(0, 9) - 1)).toBe(false);
    expect(office.isOpen(at(0, 9))).toBe(true);
    expect(office.isOpen(at(0, 17) - 1)).toBe(true);
    expect(office.isOpen(at(0, 17))).toBe(false);
    expect(office.opening(at(0, 17))).toBe(at(1, 9));
    expect(office.opening(at(4, 17))).toBe(at(7, 9));
  });

  it('pass midnight and the end of the week', () => {
    expect(nights.isOpen(at(5, 0))).toBe(true);
    expect(nights.isOpen(0)).toBe(true);
    expect(nights.isOpen(at(0, 4))).toBe(false);
    expect(nights.opening(0)).toBe(0);
    expect(nights.closing(0)).toBe(at(0, 4));
    expect(nights.closing(at(6, 23))).toBe(at(7, 4));
    expect(nights.closing(at(7, 1))).toBe(at(7, 4));
    expect(nights.longest).toBe(8 * HOUR);
  });

  it('join ranges that touch or overlap, given in any order', () => {
    const joined = new WeeklyHours([
      { from: at(2, 10), to: at(2, 12) },
      { from: at(0, 12), to: at(0, 15) },
      { from: at(0, 9), to: at(0, 12) },
      { from: at(2, 9), to: at(2, 11) },
    ]);
    expect(joined.closing(at(0, 9))).toBe(at(0, 15));
    expect(joined.closing(at(2, 9))).toBe(at(2, 12));
    expect(joined.longest).toBe(6 * HOUR);
  });

  it('join ranges that touch at the end of the week', () => {
    const weekend = new WeeklyHours([
      { from: at(6, 12), to: at(7, 0) },
      { from: 0, to: at(0, 6) },
    ]);
    expect(weekend.longest).toBe(18 * HOUR);
    expect(weekend.closing(at(6, 12))).toBe(at(7, 6));
    expect(weekend.closing(at(7, 0))).toBe(at(7, 6));
    expect(weekend.sessionEnd(0, 1)).toBe(at(0, 6));
    expect(weekend.sessionEnd(0, 2)).toBe(at(7, 6));
  });

  it('are always open when the ranges make up the whole week', () => {
    const whole = new WeeklyHours([
      { from: at(3, 0), to: at(9, 0) },
      { from: at(2, 0), to: at(3, 0) },
    ]);
    for (const hours of [whole, WeeklyHours.always, new WeeklyHours([{ from: 5, to: 5 + 2 * WEEK }])]) {
      expect(hours.isAlways).toBe(true);
      expect(hours.longest).toBe(Infinity);
      expect(hours.opening(17)).toBe(17);
      expect(hours.closing(17)).toBe(Infinity);
      expect(hours.withRoom(17, 100 * WEEK)).toBe(17);
      expect(hours.openBetween(17, 40)).toBe(23);
      expect(hours.sessionEnd(17, 1)).toBe(Infinity);
      expect(hours.afterOpen(17, 40)).toBe(57);
      expect(hours.beforeOpen(17, 40)).toBe(-23);
    }
  });

  it('without any range are never open', () => {
    const never = new WeeklyHours([]);
    expect(never.isAlways).toBe(false);
    expect(never.longest).toBe(0);
    expect(never.isOpen(0)).toBe(false);
    expect(never.opening(0)).toBe(Infinity);
    expect(never.withRoom(0, 0)).toBe(Infinity);
    expect(never.openBetween(0, 10 * WEEK)).toBe(0);
    expect(never.sessionEnd(0, 1)).toBe(Infinity);
    expect(never.afterOpen(0, 1)).toBe(Infinity);
    expect(never.beforeOpen(0, 1)).toBe(-Infinity);
  });

  it('find the first instant with enough room, which the last of a session need not have', () => {
    expect(office.withRoom(at(0, 8), 2 * HOUR)).toBe(at(0, 9));
    expect(office.withRoom(at(0, 15), 2 * HOUR)).toBe(at(0, 15));
    expect(office.withRoom(at(0, 15) + 1, 2 * HOUR)).toBe(at(1, 9));
    expect(office.withRoom(at(4, 15) + 1, 8 * HOUR)).toBe(at(7, 9));
    expect(office.withRoom(0, 8 * HOUR + 1)).toBe(Infinity);
    const uneven = new WeeklyHours([
      { from: at(0, 9), to: at(0, 10) },
      { from: at(3, 9), to: at(3, 19) },
    ]);
    expect(uneven.withRoom(at(3, 10), 10 * HOUR)).toBe(at(10, 9));
  });

  it('count a session under way as the first', () => {
    expect(office.sessionEnd(at(0, 9), 1)).toBe(at(0, 17));
    expect(office.sessionEnd(at(0, 16), 2)).toBe(at(1, 17));
    expect(office.sessionEnd(at(0, 17), 1)).toBe(at(1, 17));
    expect(office.sessionEnd(at(0, 0), 11)).toBe(at(14, 17));
  });

  it('say when a budget of open time is spent, at a closing rather than the next opening', () => {
    expect(office.afterOpen(at(0, 0), 8 * HOUR)).toBe(at(0, 17));
    expect(office.afterOpen(at(0, 0), 8 * HOUR + 1)).toBe(at(1, 9) + 1);
    expect(office.afterOpen(at(0, 10), 40 * HOUR)).toBe(at(7, 10));
    expect(office.afterOpen(at(5, 10), 0)).toBe(at(5, 10));
  });

  it('count a budget of open time back from a moment, to an opening rather than the closing before it', () => {
    expect(office.beforeOpen(at(1, 11), 2 * HOUR)).toBe(at(1, 9));
    expect(office.beforeOpen(at(1, 11), 2 * HOUR + 1)).toBe(at(0, 17) - 1);
    expect(office.beforeOpen(at(1, 3), 8 * HOUR)).toBe(at(0, 9));
    expect(office.beforeOpen(at(5, 10), 0)).toBe(at(5, 10));
    expect(nights.beforeOpen(at(5, 1), 3 * HOUR)).toBe(at(4, 22));
  });

  it('count back into the weeks before the first Monday', () => {
    expect(office.beforeOpen(at(0, 9), HOUR)).toBe(at(-3, 16));
    expect(office.beforeOpen(at(0, 10), 2 * HOUR)).toBe(at(-3, 16));
    expect(office.beforeOpen(at(0, 9), 40 * HOUR)).toBe(at(-7, 9));
    expect(office.beforeOpen(at(0, 9), 40 * HOUR + 1)).toBe(at(-10, 17) - 1);
    // Sunday 20:00 to Monday 04:00 lasts into the first week.
    expect(nights.beforeOpen(at(0, 2), 3 * HOUR)).toBe(at(-1, 23));
    expect(nights.beforeOpen(at(0, 12), 8 * HOUR)).toBe(at(-1, 20));
  });

  it('do not drift over centuries', () => {
    const far = 5200 * WEEK;
    expect(office.opening(far)).toBe(far + at(0, 9));
    expect(office.openBetween(3, far + at(0, 10))).toBe(5200 * 40 * HOUR + HOUR);
    expect(office.afterOpen(0, 5200 * 40 * HOUR)).toBe(far - WEEK + at(4, 17));
    expect(office.beforeOpen(at(0, 9), 5200 * 40 * HOUR)).toBe(at(0, 9) - far);
    expect(office.sessionEnd(0, 5200 * 5)).toBe(far - WEEK + at(4, 17));
  });

  it('refuse ranges that make no sense, and the closing of closed hours', () => {
    for (const span of [
      { from: 5, to: 5 },
      { from: -1, to: 5 },
      { from: 0.5, to: 5 },
      { from: 7, to: NaN },
    ]) {
      expect(() => new WeeklyHours([span])).toThrow(RangeError);
    }
    expect(() => office.closing(0)).toThrow(RangeError);
  });

  it('agree with a table of the week, hour by hour', () => {
    const hourOfWeek = fc.integer({ min: 0, max: 167 });
    const spanArbitrary = fc
      .record({
        start: hourOfWeek,
        length: fc.oneof(fc.integer({ min: 1, max: 12 }), fc.integer({ min: 1, max: 100 })),
      })
      .map(({ start, length }): Span => ({ from: start * HOUR, to: (start + length) * HOUR }));
    fc.assert(
      fc.property(
        fc.array(spanArbitrary, { maxLength: 6 }),
        fc.integer({ min: 0, max: 400 }),
        fc.integer({ min: 0, max: 400 }),
        fc.integer({ min: 0, max: 30 }),
        fc.integer({ min: 1, max: 4 }),
        (spans, start, later, room, nth) => {
          const hours = new WeeklyHours(spans);
          const table = new Array<boolean>(168).fill(false);
          for (const { from, to } of spans) for (let h = from / HOUR; h < to / HOUR; h += 1) table[h % 168] = true;
          const open = (h: number) => table[h % 168];
          const first = (test: (h: number) => boolean) => {
            for (let h = start; h < start + 168 * 32; h += 1) if (test(h)) return h * HOUR;
            return Infinity;
          };
          const hasRoom = (h: number) => open(h) && Array.from({ length: room }, (_, i) => open(h + i)).every(Boolean);
          let sum = 0;
          for (let h = start; h < later; h += 1) if (open(h)) sum += 1;
          let ends = 0;
          const isNthEnd = (h: number) => h > start && open(h - 1) && !open(h) && (ends += 1) === nth;
          let spent = 0;
          const isSpent = (h: number) => {
            if (h > start && open(h - 1)) spent += 1;
            return spent === room;
          };
          let left = room;
          // Weeks are alike, so the hours before the first Monday are those of later weeks.
          const back = () => {
            if (room === 0) return later * HOUR;
            for (let h = later - 1; h > later - 168 * 32; h -= 1)
              if (open(h + 168 * 32) && (left -= 1) === 0) return h * HOUR;
            return -Infinity;
          };

          expect(hours.isOpen(start * HOUR)).toBe(open(start));
          expect(hours.opening(start * HOUR)).toBe(first(open));
          expect(hours.withRoom(start * HOUR, room * HOUR)).toBe(first(hasRoom));
          expect(hours.openBetween(start * HOUR, later * HOUR)).toBe(sum * HOUR);
          expect(hours.sessionEnd(start * HOUR, nth)).toBe(first(isNthEnd));
          expect(hours.afterOpen(start * HOUR, room * HOUR)).toBe(first(isSpent));
          expect(hours.beforeOpen(later * HOUR, room * HOUR)).toBe(back());
          if (open(start)) expect(hours.closing(start * HOUR)).toBe(first((h) => !open(h)));
        },
      ),
      { seed: 3, numRuns: 1500 },
    );
  });
});
