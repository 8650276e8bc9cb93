import type { Numbers } from '../numbers.js';

/** A product of Legendre polynomials, one degree for each input that it is in; without any it is the constant. */
export interface Term {
  readonly inputs: readonly number[];
  /** At least 1, in the order of the inputs. */
  readonly degrees: readonly number[];
}

/** Beyond this no response of a campaign needs a polynomial. */
const LARGEST_CROSS = 16;

/**
 * Products of polynomials in a hyperbolic cross, Π(degree + 1) ≤ c, the constant first: high degrees for one input, low ones
 * where several act together (G. Blatman and B. Sudret, J. Comput. Phys. 230, 2345, 2011). The cross is as large as `most` lets it be.
 * @param inputs how many
 */
export function termsOf(inputs: number, most: number): readonly Term[] {
  let terms = cross(inputs, 2);
  for (let size = 3; size <= LARGEST_CROSS; size += 1) {
    const wider = cross(inputs, size);
    if (wider.length > most) break;
    terms = wider;
  }
  return terms;
}

function cross(inputs: number, size: number): readonly Term[] {
  const found: Term[] = [{ inputs: [], degrees: [] }];
  const extend = (term: Term, first: number, left: number): void => {
    for (let input = first; input < inputs; input += 1) {
      for (let degree = 1; degree + 1 <= left; degree += 1) {
        const wider = { inputs: [...term.inputs, input], degrees: [...term.degrees, degree] };
        found.push(wider);
        extend(wider, input + 1, left / (degree + 1));
      }
    }
  };
  extend(found[0], 0, size);
  return found;
}

/** Each term at each draw. `shares` are places in (0, 1), input by input. */
export function columnsOf(terms: readonly Term[], shares: readonly Numbers[]): readonly Float64Array[] {
  const degree = Math.max(1, ...terms.flatMap(({ degrees }) => degrees));
  const polynomials = shares.map((places) => legendre(places, degree));
  const draws = shares[0]?.length ?? 0;
  return terms.map(({ inputs, degrees }) => {
    const column = new Float64Array(draws).fill(1);
    inputs.forEach((input, factor) => {
      const values = polynomials[input][degrees[factor]];
      for (let draw = 0; draw < draws; draw += 1) column[draw] *= values[draw];
    });
    return column;
  });
}

/** Legendre polynomials of degree 0 to `most`, orthonormal over uniform places in (0, 1). */
function legendre(places: Numbers, most: number): readonly Float64Array[] {
  const draws = places.length;
  const plain = Array.from({ length: most + 1 }, () => new Float64Array(draws).fill(1));
  for (let draw = 0; draw < draws; draw += 1) {
    const x = 2 * places[draw] - 1;
    plain[1][draw] = x;
    for (let n = 1; n < most; n += 1)
      plain[n + 1][draw] = ((2 * n + 1) * x * plain[n][draw] - n * plain[n - 1][draw]) / (n + 1);
  }
  return plain.map((values, n) => values.map((value) => Math.sqrt(2 * n + 1) * value));
}

/** The rank of each value as a share of all, in (0, 1); equal values share the middle of their ranks. */
export function rankShares(values: Numbers): Float64Array {
  const order = Array.from(values, (_, i) => i).sort((a, b) => values[a] - values[b]);
  const shares = new Float64Array(values.length);
  for (let from = 0; from < order.length;) {
    let to = from + 1;
    while (to < order.length && values[order[to]] === values[order[from]]) to += 1;
    for (let i = from; i < to; i += 1) shares[order[i]] = (from + to) / 2 / order.length;
    from = to;
  }
  return shares;
}
