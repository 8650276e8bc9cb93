import { z } from 'zod';
import { convertLives, EXPOSURE_UNITS } from '../exposure.js';
import { notText } from '../show.js';
import { exposureAmount, factor, fraction, quantity, WITHIN_FIVE } from './leaf.js';
import { type Parameter, uncertainty } from './uncertainty.js';

const shape = factor(
  {
    description: 'Shape of the life distribution: below 1 early failures, above 1 wear',
    range: { times: [0.67, 1.5] },
  },
  { min: 0.05, max: 50 },
);
const amount = (description: string) => exposureAmount({ description, range: WITHIN_FIVE });
const weibullTerm = z.strictObject({
  shape,
  scale: amount('Exposure by which 63.2 % would have failed of this term alone'),
});

/** Life distributions, in the hazard's own exposure unit. A new law is one more entry here, one in ../exposure and one in chance/life. */
const lifeUpTo = (mostPerUnit: number) =>
  z.discriminatedUnion('law', [
    z.strictObject({ law: z.literal('exponential'), mean: amount('Mean life') }),
    z.strictObject({ law: z.literal('weibull'), shape, scale: amount('Exposure by which 63.2 % have failed') }),
    z.strictObject({
      law: z.literal('lognormal'),
      median: amount('Median life'),
      spread: factor(
        { description: 'Geometric standard deviation of the life', range: { times: [0.67, 1.5] } },
        { min: 1.0001, max: 100 },
      ),
    }),
    z.strictObject({ law: z.literal('gamma'), shape, scale: amount('Scale (mean over shape)') }),
    z.strictObject({ law: z.literal('bathtub'), early: weibullTerm, late: weibullTerm }),
    z.strictObject({
      law: z.literal('probability'),
      perUnit: fraction(
        {
          description: 'Probability per unit of exposure (one image, approach, millimetre or hour)',
          range: WITHIN_FIVE,
        },
        { max: mostPerUnit },
      ),
    }),
  ]);
const lifeSchema = lifeUpTo(1).meta({ id: 'life', description: 'Life distribution' });
/** A tip that is certain to chip would chip without end, as chipping goes on. */
const chippingLifeSchema = lifeUpTo(0.95).meta({
  id: 'chippingLife',
  description: 'Distribution of exposure from chip to chip',
});

const ofLife = (scale: Parameter['scale'], ...at: string[]): Parameter => ({ at: ['life', ...at], scale });

/** Parameters of all laws; those that a hazard's own law does not have are refused where they are named. */
const lifeUncertainty = uncertainty('lifeUncertainty', 'life', {
  mean: ofLife('ln', 'mean'),
  shape: ofLife('ln', 'shape'),
  scale: ofLife('ln', 'scale'),
  median: ofLife('ln', 'median'),
  spread: ofLife('ln ln', 'spread'),
  perUnit: ofLife('ln hazard', 'perUnit'),
  'early.shape': ofLife('ln', 'early', 'shape'),
  'early.scale': ofLife('ln', 'early', 'scale'),
  'late.shape': ofLife('ln', 'late', 'shape'),
  'late.scale': ofLife('ln', 'late', 'scale'),
  pace: { at: ['acceleration', 'pace'], scale: 'plain' },
  load: { at: ['acceleration', 'load'], scale: 'plain' },
  hands: { at: ['acceleration', 'hands'], scale: 'plain' },
});

const common = {
  per: z.enum(EXPOSURE_UNITS).meta({ description: 'Exposure unit in which the life is counted' }),
  life: lifeSchema,
  acceleration: z
    .strictObject({
      pace: factor(
        { description: 'Exponent α: exposure grows by paceScan^α', range: { between: [0, 3] } },
        { min: -10, max: 10 },
      ).prefault(0),
      load: factor(
        { description: 'Exponent β: exposure grows by (load / referenceLoad)^β', range: { between: [0, 3] } },
        { min: -10, max: 10 },
      ).prefault(0),
      hands: factor(
        {
          description: 'Exponent η: exposure at an approach grows by paceHands^η',
          source: 'assumed',
          range: { between: [0, 3] },
        },
        { min: 0, max: 10 },
      ).optional(),
      referenceLoad: quantity(
        'force',
        { description: 'Load at which the life was measured' },
        { positive: true },
      ).prefault('1 nN'),
    })
    .prefault({}),
  uncertainty: lifeUncertainty,
};

const qualityLeft = (description: string, preset: number) =>
  fraction({ description, source: 'assumed', range: { between: [0.1, 0.9] } }).prefault(preset);

/** What can happen to a tip. A new cause is one more entry here and one in probe/hazards. */
export const hazardSchema = z
  .discriminatedUnion('cause', [
    z
      .strictObject({ cause: z.literal('breakage'), ...common })
      .transform((hazard, context) => convertLives(hazard, context)),
    z
      .strictObject({
        cause: z.literal('chipping'),
        ...common,
        life: chippingLifeSchema,
        radiusFactor: z
          .strictObject({
            median: factor(
              {
                description: 'Median factor by which the apex radius jumps',
                source: 'assumed',
                range: { between: [1.2, 4] },
              },
              { min: 1, max: 1000 },
            ).prefault(2),
            spread: factor(
              {
                description: 'Geometric standard deviation of that factor',
                source: 'assumed',
                range: { between: [1.1, 2] },
              },
              { min: 1, max: 20 },
            ).prefault(1.5),
          })
          .prefault({}),
      })
      .transform((hazard, context) => convertLives(hazard, context)),
    z
      .strictObject({
        cause: z.literal('fouling'),
        ...common,
        quality: qualityLeft('Factor on image quality while the tip is fouled', 0.5),
        clears: z
          .union(
            [
              z.literal('never'),
              factor(
                {
                  description: 'Mean number of further images after which the tip clears by itself',
                  source: 'assumed',
                  range: WITHIN_FIVE,
                },
                { min: 0.01, max: 1e6 },
              ),
            ],
            { error: (issue) => notText(issue.input, '', '`never`, or a number of images such as `20`, is wanted') },
          )
          .prefault('never'),
      })
      .transform((hazard, context) => convertLives(hazard, context)),
    z
      .strictObject({ cause: z.literal('coating'), ...common })
      .transform((hazard, context) => convertLives(hazard, context)),
    z
      .strictObject({
        cause: z.literal('worn-out'),
        ...common,
        quality: qualityLeft('Factor on image quality once the tip is worn out', 0.5),
      })
      .transform((hazard, context) => convertLives(hazard, context)),
  ])
  .meta({ id: 'hazard', description: 'One way in which a tip of this kind is spoiled' });
