import * as z from 'zod';
import { count, factor, fraction, money, name, quantity, WITHIN_FIVE, WITHIN_TWO } from './leaf.js';
import { handledDriftSchema, movedDriftSchema } from './drift.js';
import { settleStep, step, type StepPreset } from './steps.js';

/** Steps that every workflow has: from the start of a campaign to coming to a region. */
const commonSteps = {
  setUp: step({
    time: { usual: '20 min', p90: '40 min' },
    manual: true,
    description: 'Set up the sample with the first tip or chip',
  }),
  warmUp: step({
    time: { usual: '20 min', p90: '40 min' },
    manual: false,
    description: 'Warm-up at the start and after an idle closing',
  }),
  locate: step({
    time: { usual: '4 min', p90: '9 min' },
    manual: true,
    description: 'Find a region for the first time',
  }),
};

const mishandlingSchema = z
  .strictObject({
    probability: fraction(
      { description: 'Probability that the exchange breaks what is mounted', source: 'assumed', range: WITHIN_FIVE },
      { max: 0.95 },
    ).prefault(0.02),
    paceExponent: factor(
      {
        description: 'Exponent γ of mishandling; its probability grows by paceHands^γ',
        source: 'assumed',
        range: { between: [0, 4] },
      },
      { min: 0, max: 10 },
    ).prefault(2),
  })
  .prefault({});

const hasteSchema = z
  .strictObject({
    successExponent: factor(
      {
        description:
          'Exponent κ of failing steps; a manual step fails paceHands^κ times as often, at most 95 in 100 times',
        source: 'assumed',
        range: { between: [0, 3] },
      },
      { min: 0, max: 10 },
    ),
  })
  .optional();

const changeSample = (time: StepPreset['time'], description: string, most: number) =>
  step({
    time,
    manual: true,
    description,
    source: 'assumed; common practice, no source',
    range: { times: [0.5, most] },
  });

const swapSchema = z
  .strictObject({
    steps: z
      .strictObject({
        ...commonSteps,
        retract: step({
          time: { usual: '15 s', p90: '30 s' },
          manual: false,
          description: 'Retract the tip from the surface',
        }),
        exchange: step({
          time: { usual: '3 min', p90: '5 min' },
          manual: true,
          description: 'Exchange the probe by hand; in vacuum with the transfer',
        }),
        align: step({
          time: { usual: '1 min', p90: '2 min' },
          manual: true,
          description: 'Align the light spot and detector',
        }),
        resonance: step({
          time: { usual: '30 s', p90: '1 min' },
          manual: true,
          description: 'Find the resonance frequency and set the amplitude',
        }),
        approach: step({
          time: { usual: '1 min', p90: '2 min' },
          manual: false,
          description: 'Approach until the tip meets the surface',
        }),
        relocate: step({
          time: { usual: '3 min', p90: '6 min' },
          manual: true,
          success: 0.9,
          description: 'Find the exact region again',
          range: { times: [0.5, 4] },
        }),
        settle: settleStep({
          time: { usual: '2 min', p90: '4 min' },
          manual: false,
          description: 'Wait for drift to settle',
          range: { times: [0.5, 10] },
        }),
        changeSample: changeSample(
          { usual: '10 min', p90: '20 min' },
          'Take one sample off and put the next one on; in vacuum with the transfer',
          3,
        ),
      })
      .prefault({}),
    mishandling: mishandlingSchema,
    haste: hasteSchema,
    drift: handledDriftSchema,
  })
  .meta({ id: 'swap', description: 'Swap and relocate: the probe is exchanged by hand' });

const hopSchema = z
  .strictObject({
    prepareAt: z
      .enum(['bench', 'instrument'])
      .meta({
        description:
          'Where specimens are put on levers: at the bench before the start, or at the instrument in booked time',
      })
      .prefault('bench'),
    steps: z
      .strictObject({
        prepare: step({
          time: { min: '20 min', mode: '45 min', max: '120 min' },
          manual: true,
          success: 0.8,
          description: 'Put the specimen on the lever',
          source: 'assumed; analogues without times: Indrieri et al., Rev. Sci. Instrum. 82, 023708 (2011)',
        }),
        ...commonSteps,
        retract: step({
          time: { usual: '10 s', p90: '20 s' },
          manual: false,
          description: 'Retract the specimen from the tip',
        }),
        offset: step({
          time: { usual: '10 s', p90: '20 s' },
          manual: false,
          description: 'Offset to the next site of the chip',
        }),
        coarseMove: step({
          time: { usual: '1 min', p90: '2 min' },
          manual: false,
          description: 'Coarse move beyond the fine range',
        }),
        chipExchange: step({
          time: { usual: '15 min', p90: '30 min' },
          manual: true,
          description: 'Exchange the chip of tips by hand',
        }),
        approach: step({
          time: { usual: '45 s', p90: '90 s' },
          manual: false,
          description: 'Approach until the specimen meets the tip',
        }),
        resonance: step({
          time: { usual: '20 s', p90: '40 s' },
          manual: false,
          description: 'A short look at the resonance',
        }),
        settle: settleStep({
          time: { usual: '1 min', p90: '3 min' },
          manual: false,
          description: 'Wait for creep to settle',
          range: { times: [0.5, 5] },
        }),
        register: step({
          time: { usual: '1 min', p90: '2 min' },
          manual: false,
          success: 0.95,
          description: 'Register the image with the one before',
        }),
        changeSample: changeSample(
          { usual: '8 min', p90: '15 min' },
          'Take the lever with one specimen off and put on that with the next; in vacuum with the transfer',
          2.5,
        ),
        align: step({
          time: { usual: '1 min', p90: '2 min' },
          manual: true,
          description: 'Align the light spot on the lever of the next specimen',
        }),
      })
      .prefault({}),
    mishandling: mishandlingSchema,
    haste: hasteSchema,
    drift: movedDriftSchema,
    chip: z
      .strictObject({
        price: money({ description: 'Price of one chip of tips', range: WITHIN_TWO }).prefault('0 EUR'),
        pitch: quantity(
          'length',
          {
            description: 'Distance between neighbouring sites',
            source: 'about 100 um; 92 um, from memory, in Vettiger et al., IBM J. Res. Dev. 44, 323 (2000)',
          },
          { positive: true, max: 1e8 },
        ).prefault('100 um'),
        sites: z.record(name, count({ description: 'Tips (sites) on a chip' }, { min: 1, max: 100_000 })).prefault({}),
        dead: z
          .record(
            name,
            fraction(
              {
                description: 'Share of dead sites',
                source: 'assumed',
                range: { between: [0.02, 0.5] },
              },
              { max: 0.99 },
            ),
          )
          .prefault({}),
      })
      .prefault({}),
    fineRange: quantity(
      'length',
      { description: 'Range of the fine stage; a coarse move is due beyond it' },
      { positive: true, max: 1e9 },
    ).optional(),
    specimenLoss: fraction(
      { description: 'Probability that an approach loses the specimen', source: 'assumed', range: WITHIN_FIVE },
      { max: 0.95 },
    ).prefault(0.001),
    extent: quantity(
      'length',
      { description: 'Side of the square specimen on the lever' },
      { positive: true, max: 1e9 },
    ).optional(),
    mass: quantity(
      'mass',
      { description: 'Mass of the specimen on the lever', range: WITHIN_FIVE },
      { max: 1e12 },
    ).optional(),
    effectiveMass: quantity(
      'mass',
      {
        description: 'Effective mass m* of the lever; k/(2π f0)²',
        source: 'Cleveland et al., Rev. Sci. Instrum. 64, 403 (1993)',
        range: WITHIN_TWO,
      },
      { positive: true, max: 1e12 },
    ).optional(),
  })
  .meta({ id: 'hop', description: 'Array-hop: the specimen rides on a lever, a chip of many tips lies on the stage' });

/** A third workflow is one more line here and one in campaign/workflows. */
export const workflowsSchema = z.strictObject({ swap: swapSchema.prefault({}), hop: hopSchema.prefault({}) });
