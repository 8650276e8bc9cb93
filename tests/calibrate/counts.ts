import binomialCdf from '@stdlib/stats-base-dists-binomial-cdf';

/** What an interval is held to: both sides of what it says, or, where it is wide by design, the lower one alone. */
export type Held = 'both sides' | 'not below' | 'shown';

/** An interval whose truth is known, before it was counted. */
export interface Truth {
  readonly what: string;
  /** Where the true value comes from. */
  readonly truth: string;
  readonly value: number;
  /** The chance that the interval says, or that its distribution gives it. */
  readonly nominal: number;
  readonly held: Held;
}

/** How often an interval lay about the true value, wholly above it, and wholly below it. */
export interface Figure extends Truth {
  readonly repeats: number;
  readonly holding: number;
  readonly above: number;
  readonly below: number;
}

export interface Interval {
  /** Null where there is no such end. */
  readonly low: number | null;
  readonly high: number | null;
}

/** Of what is counted a truth and, repeat by repeat, an interval. */
export class Count {
  #repeats = 0;
  #above = 0;
  #below = 0;

  constructor(readonly of: Truth) {}

  add({ low, high }: Interval): void {
    this.#repeats += 1;
    if (low !== null && low > this.of.value) this.#above += 1;
    else if (high !== null && high < this.of.value) this.#below += 1;
  }

  get figure(): Figure {
    const [repeats, above, below] = [this.#repeats, this.#above, this.#below];
    return { ...this.of, repeats, holding: repeats - above - below, above, below };
  }
}

/**
 * How far the share of intervals that hold may lie from what they say in a long run: 1.1 % below or above in 10 000 repeats and
 * more, which is five standard errors at 95 %; in fewer, from 2000 on, 2.5 % below and 2.2 % above, which is 5.1 and 4.5.
 */
export function boundsOf({ nominal, held, repeats }: Pick<Figure, 'nominal' | 'held' | 'repeats'>): {
  readonly low: number;
  readonly high: number;
} {
  const [down, up] = repeats >= 10_000 ? [0.011, 0.011] : [0.025, 0.022];
  if (held === 'shown') return { low: 0, high: 1 };
  return { low: nominal - down, high: held === 'both sides' ? Math.min(1, nominal + up) : 1 };
}

/**
 * The chance that so few intervals or fewer hold, where each does so with a chance `slack` below what it says: the exact binomial.
 */
export function chanceOfSoFew({ nominal, repeats, holding }: Figure, slack: number): number {
  return binomialCdf(holding, repeats, nominal - slack);
}
