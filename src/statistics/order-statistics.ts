import type { Numbers } from './numbers.js';

/** So many values of a large sample show about where each rank lies. */
const LANDMARKS = 32_768;
/** Standard errors of where the landmarks show a rank, within which it is looked for first. */
const MARGIN = 4;

/** The values of ranks that follow upon each other: some that equal `low`, then those `between`, then some that equal `high`. */
interface Stretch {
  /** The rank before the first of them. */
  readonly before: number;
  readonly low: number;
  readonly lows: number;
  /** Ascending. */
  readonly between: Float64Array;
  readonly high: number;
  readonly highs: number;
}

/**
 * The numbers of a sample by their rank. Each is found when it is asked for, and its neighbours with it: a few of a million
 * cost a tenth of what it costs to sort them all.
 */
export class OrderStatistics {
  readonly length: number;
  private readonly landmarks: Float64Array;
  private readonly known: Stretch[] = [];

  /** @param values none of them NaN; they must not change as long as ranks are asked for */
  constructor(private readonly values: Numbers) {
    this.length = values.length;
    this.landmarks = landmarksOf(values);
  }

  /**
   * The value of a rank, the least one being that of rank 1.
   * @throws RangeError where there is no such rank, or none but NaN has it in a large sample
   */
  at(rank: number): number {
    if (!Number.isInteger(rank) || rank < 1 || rank > this.length)
      throw new RangeError(`a sample of ${this.length} has no value of rank ${rank}`);
    if (this.landmarks.length === this.length) return this.landmarks[rank - 1];
    return valueIn(this.known.find((stretch) => reaches(stretch, rank)) ?? this.lookFor(rank), rank);
  }

  private lookFor(rank: number): Stretch {
    const { landmarks } = this;
    const last = landmarks.length - 1;
    const share = (rank - 0.5) / this.length;
    // Where it does not lie there, one looks further, at last everywhere.
    for (let margin = MARGIN * Math.sqrt(last * share * (1 - share)) + 1; ; margin *= MARGIN) {
      const from = Math.floor(share * last - margin);
      const to = Math.ceil(share * last + margin);
      const low = from < 0 ? -Infinity : landmarks[from];
      const high = to > last ? Infinity : landmarks[to];
      const stretch = stretchOf(this.values, low, high);
      if (reaches(stretch, rank)) {
        this.known.push(stretch);
        return stretch;
      }
      if (low === -Infinity && high === Infinity) throw new RangeError('a sample with NaN has no ranks');
    }
  }
}

/** The values of a sample in order, NaN behind all others; of a large one some thousands, evenly taken. */
export function landmarksOf(values: Numbers): Float64Array {
  const landmarks = new Float64Array(Math.min(values.length, LANDMARKS));
  const step = values.length / landmarks.length;
  for (let i = 0; i < landmarks.length; i += 1) landmarks[i] = values[Math.floor(i * step)];
  return landmarks.sort();
}

function stretchOf(values: Numbers, low: number, high: number): Stretch {
  let [before, lows, highs] = [0, 0, 0];
  const between: number[] = [];
  for (let i = 0; i < values.length; i += 1) {
    const value = values[i];
    if (value < low) before += 1;
    else if (value === low) lows += 1;
    else if (value < high) between.push(value);
    else if (value === high) highs += 1;
  }
  return { before, low, lows, between: new Float64Array(between).sort(), high, highs };
}

function reaches({ before, lows, between, highs }: Stretch, rank: number): boolean {
  return rank > before && rank <= before + lows + between.length + highs;
}

function valueIn({ before, low, lows, between, high }: Stretch, rank: number): number {
  const place = rank - before - 1;
  if (place < lows) return low;
  return place - lows < between.length ? between[place - lows] : high;
}
