import { expect, it } from 'vitest';
import { z } from 'zod';
import { continuation, differenceVariance, selectBest } from '../../src/statistics/selection/kim-nelson.js';
import { departure, publishedCase } from '../support/check-values.js';
import { ended } from '../support/ended.js';

/*
 * S.-H. Kim and B. L. Nelson, ACM Trans. Model. Comput. Simul. 11(3), 251–273 (2001). The formulas of the check values are from
 * memory, their numbers computed; the data of the worked case are synthetic.
 */

it('has the constants of Kim and Nelson’s procedure', () => {
  const { inputs, expected } = publishedCase(
    'kn-constants',
    z.array(z.object({ alpha: z.number(), k: z.number(), n0: z.number(), c: z.literal(1) })),
    z.array(z.object({ eta: z.number(), h2: z.number() })),
  );
  inputs.forEach(({ alpha, k, n0 }, i) => {
    const { eta, h2 } = continuation(alpha / (k - 1), n0);
    expect(departure(eta, expected[i].eta)).toBeLessThan(1e-9);
    expect(departure(h2, expected[i].h2)).toBeLessThan(1e-9);
  });
});

it('eliminates and selects on the worked table of data at the stages given', () => {
  const { inputs, expected } = publishedCase(
    'kn-worked',
    z.object({
      data: z.array(z.array(z.number())),
      alpha: z.number(),
      delta: z.number(),
      n0: z.number(),
      objective: z.literal('max'),
    }),
    z.object({
      h2: z.number(),
      S2: z.array(z.array(z.number())),
      N: z.array(z.array(z.number())),
      selected: z.number(),
      stopped_at: z.number(),
      log: z.array(z.object({ eliminated: z.number(), at_r: z.number() })),
    }),
  );
  const { data, alpha, delta, n0 } = inputs;
  const { h2 } = continuation(alpha / (data.length - 1), n0);
  data.forEach((a, i) => {
    data.forEach((b, l) => {
      const variance = differenceVariance(a.slice(0, n0), b.slice(0, n0));
      expect(departure(variance, expected.S2[i][l])).toBeLessThan(1e-9);
      expect(Math.floor((h2 * variance) / (delta * delta))).toBe(expected.N[i][l]);
    });
  });
  const systems = data.map((_, system) => system);
  const found = ended(
    selectBest(
      { systems, sharedAmong: systems.length, error: alpha, firstStage: n0, zone: delta, sense: 'most' },
      { observe: (system, index) => data[system][index], mayGoOn: () => true },
    ),
  );
  expect(found).toMatchObject({ selected: expected.selected, observations: expected.stopped_at, isDecided: true });
  expect(found.eliminated).toEqual(expected.log.map(({ eliminated, at_r }) => ({ system: eliminated, after: at_r })));
});
