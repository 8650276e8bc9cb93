import * as z from 'zod';
import { factor, money, quantity, WITHIN_TWO } from './leaf.js';
import { hazardSchema } from './hazard.js';
import { uncertainty } from './uncertainty.js';

const wearGeometricSd = factor(
  {
    description: 'Geometric standard deviation of the wear coefficient over tips',
    source: 'assumed',
    range: { between: [1, 3] },
  },
  { min: 1, max: 20 },
).prefault(1.5);

const wearSchema = z.union([
  z.strictObject({
    coefficient: quantity(
      'wear',
      { description: 'Wear coefficient; k of V = k·F·s, median over tips', range: { times: [0.1, 10] } },
      { positive: true },
    ),
    geometricSd: wearGeometricSd,
    uncertainty: uncertainty('wearUncertainty', 'wear', {
      coefficient: { at: ['coefficient'], scale: 'ln' },
      geometricSd: { at: ['geometricSd'], scale: 'ln ln' },
    }),
  }),
  z.strictObject({
    archardK: factor(
      {
        description: 'Archard wear coefficient; dimensionless K of V = K·F·s/H, median over tips',
        source: 'Si 1e-1 to 1e-3: Chung & Kim, J. Korean Soc. Precis. Eng. 20(5), 189 (2003)',
        range: { times: [0.1, 10] },
      },
      { min: 1e-12, max: 10 },
    ),
    hardness: quantity(
      'pressure',
      {
        description: 'Hardness of the tip',
        source: 'textbook, from memory: Si 12, SiN 20, diamond 80, Pt 5 GPa',
        range: WITHIN_TWO,
      },
      { positive: true },
    ),
    geometricSd: wearGeometricSd,
    uncertainty: uncertainty('archardUncertainty', 'wear', {
      archardK: { at: ['archardK'], scale: 'ln' },
      geometricSd: { at: ['geometricSd'], scale: 'ln ln' },
    }),
  }),
]);

const bluntingSchema = z
  .strictObject({
    model: z.enum(['archard']).prefault('archard'),
    halfAngle: quantity(
      'angle',
      { description: 'Half-angle of the cone that the apex caps', source: 'assumed', range: { between: [10, 35] } },
      { min: 1, max: 80 },
    ).prefault('20 deg'),
    wear: wearSchema,
  })
  .meta({ id: 'blunting', description: 'How the apex radius grows with the sliding path' });

export const tipSchema = z
  .strictObject({
    radius: z
      .strictObject({
        nominal: quantity(
          'length',
          {
            description: 'Median apex radius of a new tip',
            source: 'usual practice, no source; within 5-15 nm of Wade et al., Nano Lett. 4, 725 (2004)',
            range: { times: [0.5, 1.5] },
          },
          { positive: true, max: 1e5 },
        ).prefault('8 nm'),
        geometricSd: factor(
          {
            description: 'Geometric standard deviation of the apex radius over new tips',
            source: 'assumed',
            range: { between: [1.1, 1.6] },
          },
          { min: 1, max: 10 },
        ).prefault(1.3),
        uncertainty: uncertainty('radiusUncertainty', 'apex radius of a new tip', {
          nominal: { at: ['nominal'], scale: 'ln' },
          geometricSd: { at: ['geometricSd'], scale: 'ln ln' },
        }),
      })
      .prefault({}),
    blunting: bluntingSchema.optional(),
    hazards: z.array(hazardSchema).max(50).prefault([]),
    price: money({ description: 'Price of one bought probe', range: WITHIN_TWO }).prefault('0 EUR'),
  })
  .meta({ id: 'tip', description: 'One tip kind' });
