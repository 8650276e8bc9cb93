import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { runCampaign } from '../../src/campaign/campaign.js';
import { LuckTable } from '../../src/chance/luck.js';
import { loadedBandwidth } from '../../src/probe/quality.js';
import { expectMean } from '../support/agreement.js';
import { departure, publishedCase } from '../support/check-values.js';
import { runMany } from '../support/run.js';
import { plainModel } from '../support/scene.js';
import { StepLog } from '../support/step-log.js';

describe('a specimen on the lever', () => {
  const { inputs, expected } = publishedCase(
    'mass-loaded-lever',
    z.object({ k_N_per_m: z.number(), f0_Hz: z.number(), dm_kg: z.number() }),
    z.object({ f1_Hz: z.number() }),
  );
  const effectiveMass = inputs.k_N_per_m / (2 * Math.PI * inputs.f0_Hz) ** 2;

  // Cleveland et al., Rev. Sci. Instrum. 64, 403 (1993), from memory: f = f0/√(1 + m/m*), m* = k/(2πf0)².
  it('lowers the resonance as published', () => {
    expect(departure(loadedBandwidth(inputs.f0_Hz, inputs.dm_kg, effectiveMass), expected.f1_Hz)).toBeLessThan(1e-9);
  });

  it('slows the tracking loop of a hopping campaign in proportion, and of no swapping one', () => {
    const pass = { size: '3.333 um', lines: 300, neededResolution: '50 nm', trackingBandwidth: '70 Hz', accept: 0 };
    const picograms = (kilograms: number) => `${kilograms * 1e15} pg`;
    const qualityOf = (workflow: 'swap' | 'hop') =>
      runMany(
        plainModel({
          workflow,
          regions: 1,
          passes: [pass],
          ...(workflow === 'hop'
            ? { more: { mass: picograms(inputs.dm_kg), effectiveMass: picograms(effectiveMass) } }
            : {}),
        }),
        'tracking',
        1,
      )[0].images[0].kept?.quality;
    // v = 2·3333 nm·1 Hz; the grid is 2·3333/300 = 22.2 nm, finer than needed, so that tracking alone counts.
    const tracked = (bandwidth: number) => 1 / Math.sqrt(1 + (6666 / (50 * bandwidth)) ** 2);
    expect(qualityOf('swap')).toBeCloseTo(tracked(70), 9);
    expect(qualityOf('hop')).toBeCloseTo(tracked((70 * expected.f1_Hz) / inputs.f0_Hz), 9);
  });
});

/*
 * Geometric distribution. 2000 changes of tip, fixed seed, 2 comparisons of means (tests/support/agreement.ts): fails by chance
 * less than once in ten million seeds.
 */
it('hops to a live site take the published number of tries', () => {
  const { inputs, expected } = publishedCase(
    'good-site-hops',
    z.object({ y: z.number(), n: z.number() }),
    z.object({ meanHops: z.number(), within3: z.number() }),
  );
  // Every image is critical, so that each but the first needs another site.
  const changes = 2000;
  const model = plainModel({
    workflow: 'hop',
    regions: changes + 1,
    passes: [{ critical: true }],
    more: { specimenLoss: 0, chip: { sites: { tip: 100_000 }, dead: { tip: 1 - inputs.y } } },
  });
  const log = new StepLog();
  const outcome = runCampaign(model, new LuckTable('sites').replication(0), log);
  expect(outcome).toMatchObject({ tips: changes + 1, takes: changes + 1, chips: 1 });
  const hops: number[] = [];
  for (const { step } of log.steps) {
    if (step === 'retract' && hops.length === 0) hops.push(0);
    if (step === 'offset') hops[hops.length - 1] += 1;
    if (step === 'scan') hops.push(0);
  }
  const perChange = hops.filter((count) => count > 0);
  expect(perChange).toHaveLength(changes);
  expectMean(perChange, expected.meanHops, 0.015, 'hops to a live site');
  const beyond: number[] = perChange.map((count) => (count > 1 ? 1 : 0));
  expectMean(beyond, 1 - inputs.y, 0.01, 'share of changes that need more than one hop');
  expect(departure(1 - (1 - inputs.y) ** inputs.n, expected.within3)).toBeLessThan(1e-12);
  // Of 2000 changes 16 are expected to need more than three hops; below 1 or above 50 is once in more than a million.
  const late = perChange.filter((count) => count > inputs.n).length;
  expect(late).toBeGreaterThan(0);
  expect(late).toBeLessThan(50);
});
