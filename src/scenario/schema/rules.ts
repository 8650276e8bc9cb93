import * as z from 'zod';
import { LONGEST } from '../../chance/duration.js';
import { checked, count, flag, fraction, groups, name, quantity, USUAL, useLimit, WITHIN_TWO } from './leaf.js';
import { driftLimit } from './steps.js';

const time = (description: string, preset: string) =>
  quantity('time', { description, source: USUAL, range: WITHIN_TWO }, { max: 3e7 }).prefault(preset);

/** A wait for drift: a time in seconds, or until the drift rate has come down to something, in nm/s. */
export type Wait = { readonly fixed: number } | { readonly until: number };

const waitTime = quantity('time', { description: 'Least time' }, { max: LONGEST });
const wait = z
  .union([waitTime, z.strictObject({ fixed: waitTime }), z.strictObject({ until: driftLimit })])
  .transform((form): Wait => (typeof form === 'number' ? { fixed: form } : form))
  .register(groups, { description: 'Settling before a critical pass, where that is longer', shorthand: 'fixed' });

/** When a tip goes, and what is tried before it goes. */
export const rulesSchema = z
  .strictObject({
    after: useLimit({
      description: 'Use after which a tip is replaced; `20 images`, `5 mm` of path or `3 h` of scanning',
    }).optional(),
    radiusAbove: quantity(
      'length',
      { description: 'Apex radius above which a tip is replaced; as a check reads it' },
      { positive: true, max: 1e6 },
    ).optional(),
    cleanFirst: z
      .strictObject({
        tries: count(
          { description: 'Cleaning tries after a flag before the tip is replaced' },
          { min: 0, max: 100 },
        ).prefault(0),
        time: time('Time of one cleaning', '10 min'),
        manual: flag({ description: 'Cleaning needs an operator' }).prefault(true),
        success: fraction({
          description: 'Probability that one cleaning clears contamination',
          source: 'assumed',
          range: { between: [0.3, 0.7] },
        }).prefault(0.5),
      })
      .prefault({}),
    recondition: checked(
      z.strictObject({
        tries: count(
          { description: 'Reconditioning tries before the tip is replaced; pulses, gentle contact' },
          { min: 0, max: 100 },
        ).prefault(0),
        time: time('Time of one reconditioning', '10 min'),
        manual: flag({ description: 'Reconditioning needs an operator' }).prefault(true),
        newApex: fraction({
          description: 'Probability that one reconditioning makes a new apex',
          source: 'assumed',
          range: { between: [0.1, 0.7] },
        }).prefault(0.3),
        breaks: fraction({
          description: 'Probability that one reconditioning breaks the tip',
          source: 'assumed',
          range: { between: [0.01, 0.3] },
        }).prefault(0.05),
      }),
      ({ newApex, breaks }) =>
        newApex + breaks <= 1 ? null : { key: 'newApex', message: 'newApex and breaks together must not exceed 1' },
    ).prefault({}),
    settleCritical: wait
      .meta({
        description:
          'Settling after a change of tip for a critical pass lasts at least so long: a time, or `{until: 0.02 nm/s}`',
      })
      .optional(),
  })
  .meta({ id: 'rules', description: 'Replacement rules' });

const supply = z
  .union([
    count({ description: 'At hand; no more come' }, { max: 1_000_000 }).transform((atHand) => ({ atHand })),
    z.strictObject({
      atHand: count({ description: 'At hand at the start; a delivery brings as many again' }, { min: 1 }),
      restock: quantity(
        'time',
        { description: 'Delay from running out to the delivery', range: WITHIN_TWO },
        { max: 3e9 },
      ).optional(),
    }),
  ])
  .meta({ description: 'At hand for each instrument, and how long more take to come' })
  .register(groups, { shorthand: 'atHand' });

/** What is at hand for each instrument; what is not named is never short. */
export const stockSchema = z
  .strictObject({ tips: z.record(name, supply).prefault({}), chips: supply.optional(), specimens: supply.optional() })
  .meta({ id: 'stock', description: 'Tips, chips and specimens at hand' });
