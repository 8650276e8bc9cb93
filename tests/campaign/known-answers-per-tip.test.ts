import { describe, it } from 'vitest';
import { expectMean } from '../support/agreement.js';
import { spoilingOf, tipLives } from '../support/tip-lives.js';

/*
 * Known answer 8, from the per-tip table: 3000 tips a case, fixed seeds, 8 comparisons of means
 * (tests/support/agreement.ts): fails by chance less than once in ten million seeds.
 */
const both = (breakage: object, fouling: object, seed: string) =>
  tipLives({
    seed,
    replications: 100,
    tipsAtHand: 30,
    images: 2500,
    hazards: [
      { cause: 'breakage', per: 'image', life: breakage },
      { cause: 'fouling', per: 'image', quality: 0.5, clears: 'never', life: fouling },
    ],
  });

describe('8. two hazards at once', () => {
  it('share the tips as their rates do, and the mean life is one over the sum, where both are exponential', () => {
    const lives = both(
      { distribution: 'exponential', mean: 20 },
      { distribution: 'exponential', mean: 30 },
      'known answer 8 exponential',
    );
    const firsts = lives.map(spoilingOf);
    const share = 1 / 20 / (1 / 20 + 1 / 30);
    const mean = 1 / (1 / 20 + 1 / 30);
    expectMean(
      firsts.map(({ cause }) => (cause === 'breakage' ? 1 : 0)),
      share,
      0.01,
      'share of breakage',
    );
    expectMean(
      firsts.map(({ use }) => use.images),
      mean,
      mean / 50,
      'mean life',
    );
    // The cause says nothing of the time: given either, the mean is the same.
    for (const cause of ['breakage', 'fouling'])
      expectMean(
        firsts.filter((first) => first.cause === cause).map(({ use }) => use.images),
        mean,
        mean / 30,
        `mean life of those spoiled by ${cause}`,
      );
  });

  it('share the tips as scale^-shape, and live as one Weibull of that shape, where both have one shape', () => {
    const [shape, breakage, fouling] = [2, 16, 12];
    const lives = both(
      { distribution: 'weibull', shape, scale: breakage },
      { distribution: 'weibull', shape, scale: fouling },
      'known answer 8 Weibull',
    );
    const firsts = lives.map(spoilingOf);
    const share = breakage ** -shape / (breakage ** -shape + fouling ** -shape); // 9/25
    const scale = (breakage ** -shape + fouling ** -shape) ** (-1 / shape); // 9.6
    const mean = scale * (Math.sqrt(Math.PI) / 2); // Γ(1 + 1/2) = √π/2
    expectMean(
      firsts.map(({ cause }) => (cause === 'breakage' ? 1 : 0)),
      share,
      0.01,
      'share of breakage',
    );
    expectMean(
      firsts.map(({ use }) => use.images),
      mean,
      mean / 80,
      'mean life',
    );
    // Of a Weibull with shape 2 the square of the life is exponential with mean scale².
    expectMean(
      firsts.map(({ use }) => use.images ** 2),
      scale ** 2,
      scale ** 2 / 40,
      'mean square of life',
    );
    expectMean(
      firsts.map(({ use }) => (use.images > scale ? 1 : 0)),
      Math.exp(-1),
      0.01,
      'share that outlives the scale',
    );
  });
});
