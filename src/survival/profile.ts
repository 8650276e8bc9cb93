import { normalQuantile } from '../chance/normal.js';
import { maximise, type Objective, type Peak } from './maximise.js';

/** Ends of an interval; null: the likelihood sets no end there. */
export interface Ends {
  readonly low: number | null;
  readonly high: number | null;
}

/** Ends farther than this from the estimate, in natural logarithms (a factor of some three million), are taken as none. */
const FARTHEST = 15;

/** How closely an end is found, in free numbers, and how closely the deviance there is the one wanted. */
const WIDTH = 1e-8;
const CLOSE = 1e-6;

/** Longest first guess, where the curvature says little. */
const LONGEST_GUESS = 2;

const MOST_STEPS = 100;

/** Finds the top of a function near a start. */
export type Find = (f: Objective, start: readonly number[]) => Pick<Peak, 'at' | 'value'>;

const findAnywhere: Find = (f, start) => maximise(f, start, () => true);

/** Half-width of an interval in standard errors: the root of the chi-square quantile with one degree of freedom. */
export function halfWidth(level: number): number {
  return normalQuantile((1 + level) / 2);
}

/**
 * The profile-likelihood interval of one free number: all values that a likelihood-ratio test on one degree of freedom doesn't refuse (S. S.
 * Wilks, Ann. Math. Stat. 9, 60, 1938; W. Q. Meeker and L. A. Escobar, Am. Stat. 49, 48, 1995). At each value all others are at their best.
 * @param covariance of the estimates, to guess from
 * @param level of confidence, in (0, 1)
 * @param find finds the best of the others
 */
export function profileEnds(
  f: Objective,
  peak: Peak,
  index: number,
  covariance: readonly (readonly number[])[],
  level: number,
  find = findAnywhere,
): Ends {
  const without = (all: readonly number[]) => all.filter((_, i) => i !== index);
  const variance = covariance[index][index];
  const others = without(peak.at);
  /** How the others follow this one near the estimate. */
  const slopes = without(covariance[index]).map((one) => one / variance);
  const together = (value: number, rest: readonly number[]) => rest.toSpliced(index, 0, value);
  const wanted = halfWidth(level);

  function end(direction: 1 | -1): number | null {
    /** How far the others were from where the slopes led, at the last value tried. */
    let aside = others.map(() => 0);
    /** How far the root of the deviance passes the one wanted, at a distance from the estimate. */
    const excess = (distance: number) => {
      const value = peak.at[index] + direction * distance;
      const held = (free: readonly number[]) => f(together(value, free));
      const led = others.map((one, i) => one + direction * distance * slopes[i]);
      let best = held(led);
      if (others.length > 0) {
        const start = led.map((one, i) => one + aside[i]);
        const found = find(held, start);
        best = found.value;
        aside = found.at.map((one, i) => one - led[i]);
      }
      return Math.sqrt(Math.max(0, 2 * (peak.value - best))) - wanted;
    };
    let inside = 0;
    let insideBy = -wanted;
    let outside = Math.min(wanted * Math.sqrt(variance), LONGEST_GUESS);
    let outsideBy = excess(outside);
    while (outsideBy < 0) {
      inside = outside;
      insideBy = outsideBy;
      outside *= 1.6;
      if (outside > FARTHEST) return null;
      outsideBy = excess(outside);
    }
    if (outsideBy === Infinity) outsideBy = wanted;
    // False position in the Illinois form: the root of the deviance is nearly straight, so a few steps do.
    let kept = 0;
    for (let count = 0; count < MOST_STEPS && outside - inside > WIDTH; count += 1) {
      const next = inside + ((outside - inside) * insideBy) / (insideBy - outsideBy);
      const by = excess(next);
      if (Math.abs(by) < CLOSE) return peak.at[index] + direction * next;
      if (by < 0) {
        inside = next;
        insideBy = by;
        if (kept === -1) outsideBy /= 2;
        kept = -1;
      } else {
        outside = next;
        outsideBy = by === Infinity ? wanted : by;
        if (kept === 1) insideBy /= 2;
        kept = 1;
      }
    }
    return peak.at[index] + direction * outside;
  }

  return { low: end(-1), high: end(1) };
}
