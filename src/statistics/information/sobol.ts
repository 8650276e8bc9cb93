import { average, type Numbers } from '../numbers.js';
import { actingIn, squaredError } from './acting.js';
import { Surrogate } from './surrogate.js';

/** Shares of a response's variance (I. M. Sobol', Math. Model. Comput. Exp. 1, 407, 1993). */
export interface SobolIndices {
  /** What these inputs alone explain. */
  readonly first: number;
  /** What is left unexplained where only they are not known, their interactions with others included. */
  readonly total: number;
}

export interface SobolFound {
  /** Group by group. */
  readonly indices: readonly SobolIndices[];
  /** Share of the variance that all inputs together explain; the rest belongs to some of them, but these draws do not tell to which. */
  readonly explained: number;
}

/**
 * First- and total-order indices of single inputs, or of groups of them, from one sample of draws: what a cross-fitted surrogate
 * leaves of the response with these inputs, without them, and with all (given-data estimation, E. Plischke, E. Borgonovo and
 * C. L. Smith, Eur. J. Oper. Res. 226, 536, 2013).
 * @param response one value a draw
 * @param inputs draw by draw, at least one, independent of each other
 * @param groups numbers of inputs
 * @param noise variance of what in a value is noise, as of the mean of few replications; it belongs to no input
 */
export function sobolIndices(
  response: Numbers,
  inputs: readonly Numbers[],
  groups: readonly (readonly number[])[],
  noise: number,
): SobolFound {
  const whole = squaredError(response, average(response));
  const variance = whole - noise;
  const share = (part: number) => (variance > 0 ? Math.min(1, Math.max(0, part / variance)) : 0);
  const acting = actingIn([response], inputs);
  const together = new Surrogate(acting.map((input) => inputs[input]));
  const leftBy = (isKnown: (input: number) => boolean) => {
    const known = acting.flatMap((input, place) => (isKnown(input) ? [place] : []));
    return squaredError(response, together.expected(response, known));
  };
  const withAll = leftBy(() => true);
  const indices = groups.map((group): SobolIndices => {
    if (!acting.some((input) => group.includes(input))) return { first: 0, total: 0 };
    const first = share(whole - leftBy((input) => group.includes(input)));
    const total = share(leftBy((input) => !group.includes(input)) - withAll);
    return { first, total: Math.max(first, total) };
  });
  return { indices, explained: share(whole - withAll) };
}
