import * as z from 'zod';
import { exp, expm1, ln, log1p } from '../../chance/elementary.js';

/**
 * The scale on which a parameter's uncertainty is taken for normal: the natural log of a positive amount, of the log of a
 * geometric standard deviation, of the cumulative hazard −ln(1 − p) per unit of a probability; or none for an exponent.
 */
export type Scale = 'ln' | 'ln ln' | 'ln hazard' | 'plain';

/** A value on the scale on which its uncertainty is normal; not finite where that scale does not reach. */
export function ontoScale(scale: Scale, value: number): number {
  switch (scale) {
    case 'ln':
      return ln(value);
    case 'ln ln':
      return ln(ln(value));
    case 'ln hazard':
      return ln(-log1p(-value));
    case 'plain':
      return value;
  }
}

/** The value at a place of its scale. */
export function fromScale(scale: Scale, place: number): number {
  switch (scale) {
    case 'ln':
      return exp(place);
    case 'ln ln':
      return exp(exp(place));
    case 'ln hazard':
      return -expm1(-exp(place));
    case 'plain':
      return place;
  }
}

/** A value of the map that carries the uncertainty. */
export interface Parameter {
  /** Keys from that map to the value. */
  readonly at: readonly string[];
  readonly scale: Scale;
}

/** What may be uncertain in a map, by the name that the uncertainty has for it. */
export interface Uncertain {
  /** What the parameters describe together, such as `life`. */
  readonly what: string;
  readonly parameters: Readonly<Record<string, Parameter>>;
}

/** The schemas of uncertainties, with the values of which they speak: see `unknownInputs`. */
export const uncertainties = z.registry<Uncertain>();

const end = z.union([z.number(), z.string().max(100)]);
const interval = z
  .tuple([end, end])
  .meta({ description: 'Lower and upper end of a central 95 % interval, in the units of the value itself' });

/**
 * An optional `uncertainty` for the map of which these are values: from a fit, the parameters and the covariance of what
 * they are on their scales, with the ranges that were held before it; or by hand, a central 95 % interval for each. Shapes, names and units are held to the map by
 * `checkUncertainties`.
 */
export function uncertainty(id: string, what: string, parameters: Uncertain['parameters']) {
  const names = Object.keys(parameters);
  const ranges = z
    .strictObject(Object.fromEntries(names.map((name) => [name, interval.optional()])))
    .meta({ id: `${id}Range`, description: 'For each value a central 95 % interval, as two ends' });
  const schema = z
    .union([
      z.strictObject({
        of: z.array(z.enum(names)).min(1).max(20).meta({ description: 'Which values, in the order of the covariance' }),
        covariance: z
          .array(z.array(z.number()).max(20))
          .max(20)
          .meta({ description: 'Covariance of the natural logs of the values; of exponents themselves' }),
        // What was held before the log: a fit to more of it begins with that.
        prior: ranges.optional(),
      }),
      z.strictObject({ range: ranges }),
    ])
    .meta({ id, description: `How far the ${what} is known` })
    .optional();
  const plain: z.ZodType = schema;
  uncertainties.add(plain, { what, parameters });
  return schema;
}

/** Either form as written, whatever map it stands in. */
export const writtenUncertainty = z.union([
  z.object({ of: z.array(z.string()), covariance: z.array(z.array(z.number())) }),
  z.object({ range: z.record(z.string(), z.tuple([end, end])) }),
]);
