import * as z from 'zod';
import {
  declaredOf as distributionOf,
  DISTRIBUTION_NAMES,
  isLife,
  isParameter,
  type Life,
  type ParameterKind,
  type Parameters,
  placesOf,
} from '../../chance/life.js';
import {
  CAUSE_NAMES,
  declaredOf,
  isCauseWithSettings,
  isSetting,
  type Setting,
  type Settings,
} from '../../probe/causes.js';
import { EXPOSURE_UNITS } from '../exposure.js';
import { notText } from '../show.js';
import { exposureAmount, factor, fraction, oneOrMore, quantity, WITHIN_FIVE } from './leaf.js';
import { type Parameter, type Scale, uncertainty } from './uncertainty.js';

/** The schema of a parameter of this kind, and the scale on which it is uncertain; `mostPerUnit` is the greatest probability. */
const PARAMETERS: Readonly<
  Record<ParameterKind, { readonly scale: Scale; schema(description: string, mostPerUnit: number): z.ZodType<number> }>
> = {
  exposure: { scale: 'ln', schema: (description) => exposureAmount({ description, range: WITHIN_FIVE }) },
  shape: {
    scale: 'ln',
    schema: (description) => factor({ description, range: { times: [0.67, 1.5] } }, { min: 0.05, max: 50 }),
  },
  'geometric SD': {
    scale: 'ln ln',
    schema: (description) => factor({ description, range: { times: [0.67, 1.5] } }, { min: 1.0001, max: 100 }),
  },
  probability: {
    scale: 'ln hazard',
    schema: (description, mostPerUnit) => fraction({ description, range: WITHIN_FIVE }, { max: mostPerUnit }),
  },
};

function shapeOf(parameters: Parameters, mostPerUnit: number): Readonly<Record<string, z.ZodType>> {
  return Object.fromEntries(
    Object.entries(parameters).map(([name, one]) => [
      name,
      isParameter(one)
        ? PARAMETERS[one.is].schema(one.description, mostPerUnit)
        : z.strictObject(shapeOf(one, mostPerUnit)),
    ]),
  );
}

/** Life distributions, in the hazard's own exposure unit: all that are declared in chance/life. */
function lifeUpTo(mostPerUnit: number, meta: { readonly id: string; readonly description: string }) {
  const options = DISTRIBUTION_NAMES.map((name) =>
    z.strictObject({ distribution: z.literal(name), ...shapeOf(distributionOf(name).parameters, mostPerUnit) }),
  );
  return z
    .discriminatedUnion('distribution', oneOrMore(options))
    .transform((read): Life => {
      if (!isLife(read)) throw new Error(`what was read is no ${read.distribution} life`);
      return read;
    })
    .meta(meta);
}
const lifeSchema = lifeUpTo(1, { id: 'life', description: 'Lifetime distribution' });
/** A tip that is certain to chip would chip without end, as chipping goes on. */
const chippingLifeSchema = lifeUpTo(0.95, {
  id: 'chippingLife',
  description: 'Distribution of exposure from chip to chip',
});

/** Parameters of all distributions; those that a hazard's own distribution does not have are refused where they are named. */
const ofLife = DISTRIBUTION_NAMES.flatMap((name) =>
  placesOf(distributionOf(name).parameters).map(({ at, parameter }): [string, Parameter] => [
    at.join('.'),
    { at: ['life', ...at], scale: PARAMETERS[parameter.is].scale },
  ]),
);
const lifeUncertainty = uncertainty('lifeUncertainty', 'lifetime', {
  ...Object.fromEntries(ofLife),
  pace: { at: ['acceleration', 'pace'], scale: 'plain' },
  load: { at: ['acceleration', 'load'], scale: 'plain' },
  hands: { at: ['acceleration', 'hands'], scale: 'plain' },
});

const common = {
  per: z.enum(EXPOSURE_UNITS).meta({ description: 'Exposure unit in which lifetimes are counted' }),
  life: lifeSchema,
  acceleration: z
    .strictObject({
      pace: factor(
        { description: 'Exponent α of the scanning pace; exposure grows by paceScan^α', range: { between: [0, 3] } },
        { min: -10, max: 10 },
      ).prefault(0),
      load: factor(
        {
          description: 'Exponent β of the load; exposure grows by (load / referenceLoad)^β',
          range: { between: [0, 3] },
        },
        { min: -10, max: 10 },
      ).prefault(0),
      hands: factor(
        {
          description: 'Exponent η of the pace of hands; exposure at an approach grows by paceHands^η',
          source: 'assumed',
          range: { between: [0, 3] },
        },
        { min: 0, max: 10 },
      ).optional(),
      referenceLoad: quantity(
        'force',
        { description: 'Load at which lifetimes were measured' },
        { positive: true },
      ).prefault('1 nN'),
    })
    .prefault({}),
  uncertainty: lifeUncertainty,
};

/** The schema of a setting of a hazard. */
function settingSchema(setting: Setting): z.ZodType {
  const { description } = setting;
  if (setting.is === 'images') return imagesOrNever(description);
  const leaf = { description, source: 'assumed', range: { between: setting.range } };
  return setting.is === 'share'
    ? fraction(leaf).prefault(setting.usual)
    : factor(leaf, { min: setting.least, max: setting.most }).prefault(setting.usual);
}

function imagesOrNever(description: string) {
  const images = factor({ description, source: 'assumed', range: WITHIN_FIVE }, { min: 0.01, max: 1e6 });
  return z
    .union([z.literal('never'), images], {
      error: (issue) => notText(issue.input, '', '`never`, or a number of images such as `20`, is wanted'),
    })
    .prefault('never');
}

function settingsShape(settings: Settings): Readonly<Record<string, z.ZodType>> {
  return Object.fromEntries(
    Object.entries(settings).map(([name, one]) => [
      name,
      isSetting(one) ? settingSchema(one) : z.strictObject(settingsShape(one)).prefault({}),
    ]),
  );
}

const ofCause = CAUSE_NAMES.map((name) => {
  const { effect, settings } = declaredOf(name);
  const life = effect.chips ? chippingLifeSchema : lifeSchema;
  return z.strictObject({ cause: z.literal(name), ...common, life, ...settingsShape(settings) });
});

/** What can happen to a tip: all causes that are declared in probe/causes. */
export const hazardSchema = z
  .discriminatedUnion('cause', oneOrMore(ofCause))
  .transform((read) => {
    if (!isCauseWithSettings(read)) throw new Error(`what was read is no hazard of the cause ${read.cause}`);
    return read;
  })
  .meta({ id: 'hazard', description: 'One way in which a tip of this kind is spoiled' });
