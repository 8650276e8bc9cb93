import * as z from 'zod';
import { allocation, count, factor, money, name, text, USUAL, weeklyHours, weekMoment, WITHIN_TWO } from './leaf.js';
import { interestSchema } from './interest.js';
import { noticingSchema } from './noticing.js';
import { planSchema } from './plan.js';
import { rulesSchema, stockSchema } from './rules.js';
import { notText } from '../show.js';
import { tipSchema } from './tip.js';
import { workflowsSchema } from './workflows.js';

export const CAUTIONS = [
  'laser',
  'high-voltage',
  'sharp-silicon',
  'vacuum',
  'cryogen',
  'uv-ozone',
  'plasma',
  'nanoparticles',
  'biological',
] as const;

const paceSchema = z
  .strictObject({
    scan: factor({ description: 'Pace of scanning; multiplies every line rate' }, { min: 0.05, max: 50 }).prefault(1),
    hands: factor(
      { description: 'Pace of hands; manual steps take 1/hands of their time' },
      { min: 0.1, max: 10 },
    ).prefault(1),
    wait: factor(
      {
        description:
          'Pace of waits; settling and warm-up take 1/wait of their time, or end at wait times the drift rate',
      },
      { min: 0.1, max: 10 },
    ).prefault(1),
  })
  .meta({ id: 'pace', description: 'How much the practitioner hurries; 1 is the usual pace' });

const MOST_KINDS = 50;
export const MOST_STRATEGIES = 50;

/** Everything a strategy may change; a strategy adds a workflow and a name. */
const sharedShape = {
  title: text.min(1).meta({ description: 'One line that names the experiment' }),
  about: text.optional(),
  seed: z.string().min(1).max(200).meta({ description: 'Seed text; the same seed gives the same bytes' }).prefault('1'),
  cautions: z
    .array(z.enum(CAUTIONS))
    .meta({ description: 'Which usual cautions the reports show' })
    .prefault(['laser', 'high-voltage', 'sharp-silicon']),
  plan: planSchema,
  tips: z
    .record(name, tipSchema)
    .refine((kinds) => Object.keys(kinds).length <= MOST_KINDS, `at most ${MOST_KINDS} kinds of tips are wanted`),
  workflows: workflowsSchema.prefault({}),
  noticing: noticingSchema.prefault({}),
  rules: rulesSchema.prefault({}),
  stock: stockSchema.prefault({}),
  pace: paceSchema.prefault({}),
  instruments: count(
    {
      description:
        'Instruments that work in parallel; samples are dealt out in turn, or, where there are fewer of them, their regions',
    },
    { min: 1, max: 100 },
  ).prefault(1),
  operators: z
    .strictObject({
      count: count({ description: 'Operators who share all instruments' }, { min: 1, max: 100 }).prefault(1),
      hours: weeklyHours({ description: 'Hours in which operators are present', source: USUAL }).prefault('always'),
    })
    .prefault({}),
  bookings: z
    .strictObject({
      hours: weeklyHours({ description: 'Hours in which the instruments are booked', source: USUAL }).prefault(
        'always',
      ),
      start: weekMoment({
        description: 'When the experiment starts, such as `Mo 09:00`; default the first opening of the week',
      }).optional(),
      allocation: allocation({ description: 'Granted time; `5 sessions` or `40 h` inside bookings' }).optional(),
      unattended: z
        .enum(['none', 'scanning', 'hopping'])
        .meta({ description: 'What may start with no operator present' })
        .prefault('none'),
    })
    .prefault({}),
  smallestDifference: interestSchema.prefault({}),
  costs: z
    .strictObject({
      instrumentHour: money({ description: 'Price of an instrument hour', range: WITHIN_TWO }).prefault('0 EUR'),
      operatorHour: money({ description: 'Price of an operator hour', range: WITHIN_TWO }).prefault('0 EUR'),
    })
    .prefault({}),
};

const strategySchema = z
  .strictObject({
    name,
    workflow: workflowsSchema.keyof().meta({ description: 'Which workflow this strategy follows' }),
    rules: rulesSchema.optional(),
    pace: paceSchema.optional(),
    set: z
      .record(z.string().max(300), z.unknown())
      .meta({ description: 'Overrides of anything by path; ~ takes a value away' })
      .optional(),
  })
  .meta({ id: 'strategy', description: 'One strategy: workflow, rules, pace and overrides' });

/** What a strategy follows: all but the strategies themselves and what is said of values. */
export const sharedSchema = z.strictObject(sharedShape);

export const scenarioSchema = z
  .strictObject({
    ...sharedShape,
    strategies: z
      .array(strategySchema, {
        error: (issue) => notText(issue.input, '', 'a list of strategies is wanted, each with a name and a workflow'),
      })
      .min(1, 'no strategy is given; at least one with a name and a workflow is wanted')
      .max(MOST_STRATEGIES, `more than ${MOST_STRATEGIES} strategies are given; at most ${MOST_STRATEGIES} are wanted`),
    sources: z
      .record(z.string().max(300), text)
      .meta({
        description:
          'Path, also `strategies.<name>.set.<path>` → where its value comes from; what has none is shown as assumed',
      })
      .prefault({}),
    ranges: z
      .record(z.string().max(300), z.tuple([z.union([z.number(), z.string()]), z.union([z.number(), z.string()])]))
      .meta({
        description: 'Path, also `strategies.<name>.set.<path>` → the two ends between which an assumed value may lie',
      })
      .prefault({}),
  })
  .meta({ id: 'scenario', title: 'swap-or-hop scenario' });

/** A scenario with every default filled in and every unit gone. */
export type Scenario = z.output<typeof scenarioSchema>;
export type TipKind = Scenario['tips'][string];
export type Pass = Scenario['plan']['passes'][number];
export type Hazard = TipKind['hazards'][number];
export type Cause = Hazard['cause'];
export type WorkflowName = Scenario['strategies'][number]['workflow'];
