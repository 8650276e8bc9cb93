import type { Outcome } from '../../src/campaign/outcome.js';

/** Everything that an outcome says of the end, and not of how long it took or what it cost. */
export function endOf(outcome: Outcome, start: number) {
  return {
    ends: outcome.elapsed.map((elapsed) => start + elapsed),
    confirmed: Math.round((start / 1e6 + outcome.confirmedAt) * 1e6),
    isFinished: outcome.isFinished,
    takesOf: outcome.takesOf,
    images: outcome.images.map(({ kept, fate }) => [fate, kept?.quality, kept?.running]),
    tally: [
      outcome.yield,
      outcome.apparentYield,
      outcome.good,
      outcome.undetectedBad,
      outcome.givenUp,
      outcome.missing,
    ],
    cut: outcome.cut === null ? null : { ...outcome.cut, tips: 0 },
  };
}
