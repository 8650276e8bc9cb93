import { describe, expect, it } from 'vitest';
import { forwardFit } from '../../../src/statistics/information/forward.js';

/** Cross products of columns, what is to be explained last. */
function productsOf(columns: readonly (readonly number[])[]): readonly Float64Array[] {
  return columns.map((one) =>
    Float64Array.from(columns, (other) => one.reduce((sum, value, draw) => sum + value * other[draw], 0)),
  );
}

const draws = 64;
const column = (value: (draw: number) => number) => Array.from({ length: draws }, (_, draw) => value(draw));
/** Columns of 1 and −1, each at right angles to all others (Hadamard). */
const walsh = (bits: number) =>
  column((draw) => ((draw & bits).toString(2).replaceAll('0', '').length % 2 === 0 ? 1 : -1));
const one = walsh(0);

describe('a fit of one column after the other', () => {
  it('gives the coefficients of least squares, that which explains most first', () => {
    // A response without noise: 5 + 2a − 3b, where b = (a + c)/2 is no right angle from a.
    const [a, c] = [walsh(1), walsh(2)];
    const b = column((draw) => (a[draw] + c[draw]) / 2);
    const response = column((draw) => 5 + 2 * a[draw] - 3 * b[draw] + 0.01 * walsh(63)[draw]);
    const found = forwardFit(productsOf([one, a, b, response]), [0, 1, 2], draws);
    expect(found.map(({ column: number }) => number)).toEqual([0, 2, 1]);
    for (const [place, exact] of [5, -3, 2].entries()) expect(found[place].coefficient).toBeCloseTo(exact, 10);
  });

  it('names columns by their numbers where only some are candidates, and takes no other', () => {
    const response = column((draw) => 1 + walsh(1)[draw] + 4 * walsh(2)[draw] + 0.01 * walsh(63)[draw]);
    const found = forwardFit(productsOf([one, walsh(1), walsh(2), walsh(4), response]), [0, 2, 3], draws);
    expect(found.map(({ column: number }) => number)).toEqual([0, 2]);
    expect(found[1].coefficient).toBeCloseTo(4, 10);
  });

  it('takes the first candidate whether it explains anything or not', () => {
    expect(forwardFit(productsOf([one, walsh(1), walsh(63)]), [0, 1], draws)).toEqual([{ column: 0, coefficient: 0 }]);
  });

  it('takes a column that is worth its price, and none that is not', () => {
    // Residual before 1 + s², behind 1, a draw: the price is met where n ln(1 + s²) = ln n + 2 ln 3.
    const least = Math.sqrt(Math.exp((Math.log(draws) + 2 * Math.log(3)) / draws) - 1);
    const taken = (slope: number) => {
      const response = column((draw) => slope * walsh(1)[draw] + walsh(63)[draw]);
      return forwardFit(productsOf([one, walsh(1), walsh(2), response]), [0, 1, 2], draws).length;
    };
    expect(taken(least * 1.001)).toBe(2);
    expect(taken(least * 0.999)).toBe(1);
  });

  it('takes no column that is made of those taken but for a millionth of its square', () => {
    const a = walsh(1);
    const response = column((draw) => a[draw] + 0.1 * walsh(63)[draw] + 0.001 * walsh(31)[draw]);
    const taken = (share: number) => {
      const nearly = column((draw) => 2 * a[draw] + share * walsh(63)[draw]);
      return forwardFit(productsOf([one, a, nearly, response]), [0, 1, 2], draws).length;
    };
    expect(taken(2e-3 * 1.01)).toBe(3);
    expect(taken(2e-3 * 0.99)).toBe(2);
  });

  it('takes one column at most for ten draws', () => {
    const acting = Array.from({ length: 10 }, (_, place) => walsh(place + 1));
    const response = column((draw) =>
      acting.reduce((sum, each, place) => sum + 3 ** -place * each[draw], 1e-6 * walsh(63)[draw]),
    );
    const columns = [one, ...acting, response];
    const candidates = columns.slice(1).map((_, place) => place);
    // The constant, and one more as long as those taken are fewer than 6.4.
    expect(forwardFit(productsOf(columns), candidates, draws)).toHaveLength(7);
  });
});
