import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { LuckTable, PURPOSES } from '../../src/chance/luck.js';
import { agedTip } from '../../src/probe/aged-tip.js';
import type { Tip } from '../../src/probe/tip.js';
import { departure, publishedCase } from '../support/check-values.js';
import { plainModel } from '../support/scene.js';
import { ScriptedLuck } from '../support/stage.js';
import { nonEmpty } from '../support/non-empty.js';

/*
 * Remaining life of a part of known age, by the inverse of S(a + t) / S(a); computed with SciPy 1.10.1 and mpmath, for
 * which shared/check-values.json names the formula t = scale·((a/scale)^b − ln u)^(1/b) − a.
 */
const { inputs, expected } = publishedCase(
  'residual-life-weibull',
  z.array(z.object({ shape: z.number(), scale: z.number(), age: z.number() })),
  z.array(
    z.object({
      mean_residual: z.number(),
      residual_at_u: z.array(z.object({ surv_u: z.number(), residual: z.number() })),
    }),
  ),
);

/** A tip with one Weibull life in images, that was sound after `age` images, with the survival u of its remaining life drawn. */
function tipOfAge({ shape, scale, age }: (typeof inputs)[number], u: number): { tip: Tip; scan: () => number } {
  const model = plainModel({
    regions: 1,
    hazards: [{ cause: 'breakage', per: 'image', life: { distribution: 'weibull', shape, scale: `${scale} images` } }],
  });
  const [pass] = model.passes;
  const luck = new ScriptedLuck({ life: () => 1 - u });
  const tip = agedTip(model.kinds[0], 0, 0, luck, {
    use: { images: age, path: 0, hours: 0, approaches: 1 },
    passes: [pass],
    radius: null,
  });
  /** Scans once; the fraction at which it breaks, or 1. */
  const scan = (): number => {
    let breaksAt = 1;
    tip.scan(pass, false, {
      stopsAt: ({ at }) => {
        breaksAt = at;
        return Infinity;
      },
      timeAt: () => 0,
    });
    return breaksAt;
  };
  return { tip, scan };
}

/** Images that a tip still lasts. */
function lasts(input: (typeof inputs)[number], u: number): number {
  const { tip, scan } = tipOfAge(input, u);
  for (let images = 0; ; images += 1) {
    const at = scan();
    if (tip.broken) return images + at;
  }
}

describe('a tip that has lasted to a known age', () => {
  it('lasts on as the conditional distribution of its life says', () => {
    inputs.forEach((input, i) => {
      for (const { surv_u: u, residual } of nonEmpty(expected[i].residual_at_u))
        expect(departure(lasts(input, u), residual), `shape ${input.shape}, age ${input.age}, u ${u}`).toBeLessThan(
          1e-8,
        );
    });
  });

  it('lasts on for the mean residual life', () => {
    // The mean is the integral of S(a + t) / S(a) over t; by Simpson's rule in y = √t, up to where it is below 1e-13.
    inputs.forEach(({ shape, scale, age }, i) => {
      const hazard = (x: number) => (x / scale) ** shape;
      const end = Math.sqrt(scale * (30 + hazard(age)) ** (1 / shape) - age);
      const steps = 4000;
      const width = end / steps;
      const value = (step: number) => {
        const y = step * width;
        return 2 * y * Math.exp(hazard(age) - hazard(age + y * y));
      };
      let sum = value(0) + value(steps);
      for (let step = 1; step < steps; step += 1) sum += (step % 2 === 1 ? 4 : 2) * value(step);
      expect(departure((sum * width) / 3, expected[i].mean_residual)).toBeLessThan(1e-8);
    });
  });

  it('has the unit exponential of a new tip, so that one luck gives all ages their remaining lives', () => {
    const luck = new LuckTable('residual').replication(3);
    const [input] = inputs;
    const model = plainModel({
      regions: 1,
      hazards: [
        {
          cause: 'breakage',
          per: 'image',
          life: { distribution: 'weibull', shape: input.shape, scale: `${input.scale} images` },
        },
      ],
    });
    const aged = agedTip(model.kinds[0], 5, 0, luck, {
      use: { images: input.age, path: 0, hours: 0, approaches: 1 },
      passes: model.passes,
      radius: null,
    });
    // Exponential scores are read from a table to 1e-9.
    const own = -Math.log1p(-luck.uniform(PURPOSES.life, 0, 0, 5, 0));
    expect(aged.state.hazards[0].drawn).toBeCloseTo((input.age / input.scale) ** input.shape + own, 9);
  });
});
