import studentQuantile from '@stdlib/stats-base-dists-t-quantile';
import { mean, sum } from 'simple-statistics';
import { bonferroni, meanInterval } from './interval.js';

/** Paired differences at one place of a range; index by index common random numbers in every column. */
export interface Column {
  /** Place in the range; columns ascend by it. */
  readonly at: number;
  /** At least two. */
  readonly differences: readonly number[];
}

/** Where a mean difference passes through zero, as a place in the range. */
export interface Crossing {
  readonly at: number;
  /** Ends of the interval of the crossing. */
  readonly low: number;
  readonly high: number;
  /** The difference is below zero before and above zero behind. */
  readonly rises: boolean;
  /** Numbers of the columns before and behind it at which the difference is clearly different from zero. */
  readonly before: number;
  readonly behind: number;
}

export type Sign = -1 | 0 | 1;

/** Sign of a mean difference; 0 where its interval holds zero. */
export function signOf(differences: readonly number[], level: number): Sign {
  const { low, high } = meanInterval(differences, level);
  return low > 0 ? 1 : high < 0 ? -1 : 0;
}

/** Signs of all columns that hold together at `level` (Bonferroni). */
export function signsOf(columns: readonly Column[], level: number): readonly Sign[] {
  const each = bonferroni(level, columns.length);
  return columns.map(({ differences }) => signOf(differences, each));
}

/**
 * All crossings between columns whose differences are clearly different from zero with opposite signs. The interval of a crossing
 * inverts the interval of the difference: it reaches from the first to the last place between the two columns at which
 * zero lies within the two-sided t interval, differences being linear between neighbouring columns replication by
 * replication. At the true crossing the interval of the difference holds zero with the chance `level`, so this one holds
 * the true crossing with at least that chance; it is Fieller's interval on each straight piece (E. C. Fieller, J. R. Stat.
 * Soc. B 16, 175, 1954).
 */
export function crossingsOf(columns: readonly Column[], level: number): readonly Crossing[] {
  const signs = signsOf(columns, level);
  const crossings: Crossing[] = [];
  let before: number | null = null;
  signs.forEach((sign, behind) => {
    if (sign === 0) return;
    if (before !== null && signs[before] !== sign) {
      const bracket = columns.slice(before, behind + 1);
      crossings.push({ ...between(bracket, level), rises: sign > 0, before, behind });
    }
    before = behind;
  });
  return crossings;
}

/** Places halfway along the pieces that hold the crossing or an end of its interval, where these are longer than `finest`. */
export function refinements(columns: readonly Column[], crossing: Crossing, finest: number): readonly number[] {
  const places = [crossing.low, crossing.at, crossing.high].flatMap((place) => {
    const behind = columns.findIndex(({ at }, number) => number > crossing.before && at >= place);
    if (behind < 1) return [];
    const [from, to] = [columns[behind - 1].at, columns[behind].at];
    return to - from > finest ? [(from + to) / 2] : [];
  });
  return [...new Set(places)];
}

/** The differences of a bracket's columns, as many as all of them have. */
function between(bracket: readonly Column[], level: number): Pick<Crossing, 'at' | 'low' | 'high'> {
  const n = Math.min(...bracket.map(({ differences }) => differences.length));
  const columns = bracket.map(({ at, differences }) => ({ at, differences: differences.slice(0, n) }));
  const pieces = columns.slice(1).map((to, number) => pieceOf(columns[number], to));
  const at = zeroOf(pieces);
  const t = studentQuantile((1 + level) / 2, n - 1);
  const weight = (t * t) / n;
  const low = firstOf(pieces, (piece) => {
    const share = firstWithin(piece, weight);
    return share === null ? null : piece.from + share * (piece.to - piece.from);
  });
  const high = firstOf(pieces.toReversed(), (piece) => {
    const share = firstWithin(turned(piece), weight);
    return share === null ? null : piece.to - share * (piece.to - piece.from);
  });
  return { at, low: Math.min(low ?? at, at), high: Math.max(high ?? at, at) };
}

/** Two neighbouring columns, by their means, variances and covariance. */
interface Piece {
  readonly from: number;
  readonly to: number;
  readonly means: readonly [number, number];
  readonly variances: readonly [number, number];
  readonly covariance: number;
}

function pieceOf(from: Column, to: Column): Piece {
  const means = [mean([...from.differences]), mean([...to.differences])] as const;
  const [a, b] = [from.differences.map((d) => d - means[0]), to.differences.map((d) => d - means[1])];
  const over = (products: readonly number[]) => sum([...products]) / (a.length - 1);
  return {
    from: from.at,
    to: to.at,
    means,
    variances: [over(a.map((d) => d * d)), over(b.map((d) => d * d))],
    covariance: over(a.map((d, i) => d * b[i])),
  };
}

function turned({ from, to, means, variances, covariance }: Piece): Piece {
  return { from, to, means: [means[1], means[0]], variances: [variances[1], variances[0]], covariance };
}

/**
 * The first share of the way along a piece at which zero lies within the interval; null where it nowhere does. There the
 * square of the mean, less that of the half-width, is no more than zero: a polynomial of second order in the share.
 */
function firstWithin({ means, variances, covariance }: Piece, weight: number): number | null {
  const slope = means[1] - means[0];
  const constant = means[0] * means[0] - weight * variances[0];
  if (constant <= 0) return 0;
  const linear = 2 * (means[0] * slope - weight * (covariance - variances[0]));
  const square = slope * slope - weight * (variances[0] - 2 * covariance + variances[1]);
  const discriminant = linear * linear - 4 * square * constant;
  if (discriminant < 0) return null;
  const half = -(linear + (linear < 0 ? -1 : 1) * Math.sqrt(discriminant)) / 2;
  const roots = [half / square, constant / half].filter((share) => share >= 0 && share <= 1);
  return roots.length === 0 ? null : Math.min(...roots);
}

/** The zero of the means; of several, which noise makes, the middle one. */
function zeroOf(pieces: readonly Piece[]): number {
  const zeros = pieces.flatMap(({ from, to, means: [a, b] }) => {
    if (a === 0) return [from];
    return a * b < 0 ? [from + (a / (a - b)) * (to - from)] : [];
  });
  return zeros[Math.floor((zeros.length - 1) / 2)];
}

function firstOf<Item>(items: readonly Item[], find: (item: Item) => number | null): number | null {
  for (const item of items) {
    const found = find(item);
    if (found !== null) return found;
  }
  return null;
}
