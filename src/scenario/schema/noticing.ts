import * as z from 'zod';
import { CAUSE_NAMES, declaredOf } from '../../probe/causes.js';
import { count, flag, fraction, quantity, USUAL, WITHIN_TWO } from './leaf.js';

const sensitivity = (what: string, preset: number) =>
  fraction({
    description: `Probability that ${what} is noticed`,
    source: 'assumed',
    range: { between: [0.5, 1] },
  }).prefault(preset);
const falseAlarm = (what: string, preset: number) =>
  fraction(
    {
      description: `Probability that ${what} is flagged without reason`,
      source: 'assumed',
      range: { between: [0, 0.2] },
    },
    { max: 0.9 },
  ).prefault(preset);
const time = (description: string, preset: string) =>
  quantity('time', { description, source: USUAL, range: WITHIN_TWO }, { max: 3e7 }).prefault(preset);

const reviewSchema = z
  .strictObject({
    by: z.enum(['operator', 'automatic', 'nobody']).prefault('operator'),
    time: time('Time of one review', '1 min'),
    sensitivity: sensitivity('a bad image', 0.9),
    falseAlarm: falseAlarm('a good image', 0.02),
  })
  .meta({ id: 'review', description: 'Review of each finished scan' });

const checkSchema = z
  .strictObject({
    every: count({ description: 'A check is due after this many scans', source: USUAL }, { min: 1 }).prefault(10),
    time: time('Time of one check on a reference structure', '3 min'),
    manual: flag({ description: 'The check needs an operator' }).prefault(false),
    sensitivity: sensitivity('a tip below accept', 0.95),
    falseAlarm: falseAlarm('a sound tip', 0.02),
    radiusError: fraction({
      description: 'Relative standard error of the apex radius that a check reads',
      source: 'assumed',
      range: { between: [0.02, 0.3] },
    }).prefault(0.1),
    onNew: flag({ description: 'Each new tip just put on is checked too' }).prefault(false),
    repeatSuspects: flag({
      description: 'After a failed check the images since the last passed one are taken again',
    }).prefault(true),
  })
  .meta({ id: 'check', description: 'Check of the tip on a reference structure' });

const watchSchema = z
  .strictObject({
    by: z.enum(['operator', 'automatic']).prefault('operator'),
    causes: z.array(z.enum(CAUSE_NAMES)).prefault(CAUSE_NAMES.filter((cause) => declaredOf(cause).showsInScan)),
    sensitivity: sensitivity('an event during the scan', 0.5),
    delay: time('Delay until an event is noticed', '30 s'),
  })
  .meta({ id: 'watch', description: 'Watching the running scan' });

export const noticingSchema = z
  .strictObject({
    review: reviewSchema.prefault({}),
    check: checkSchema.optional(),
    watch: watchSchema.optional(),
    attempts: count(
      { description: 'Attempts that an image gets in all', source: USUAL },
      { min: 1, max: 1000 },
    ).prefault(4),
  })
  .meta({ id: 'noticing', description: 'How a spoiled tip or image is noticed' });
