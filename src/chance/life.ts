import { bathtub } from './life/bathtub.js';
import type { Declared, LifeDistribution, Parameter, Parameters, ValuesOf } from './life/distribution.js';
import { exponential } from './life/exponential.js';
import { gamma } from './life/gamma.js';
import { logLogistic } from './life/log-logistic.js';
import { lognormal } from './life/lognormal.js';
import { probability } from './life/probability.js';
import { weibull } from './life/weibull.js';

export type { Declared, LifeDistribution, Parameter, ParameterKind, Parameters } from './life/distribution.js';

/** Every distribution of lives: one line each. Schema, types, fits, words and tables are made from what each declares. */
export const DISTRIBUTIONS = {
  exponential,
  weibull,
  lognormal,
  gamma,
  bathtub,
  'log-logistic': logLogistic,
  probability,
};

type Distributions = typeof DISTRIBUTIONS;
export type DistributionName = keyof Distributions;

/** Those that a log of lives can be fitted with. */
export type FittedDistribution = {
  [Name in DistributionName]: Distributions[Name] extends { readonly fit: object } ? Name : never;
}[DistributionName];

/** A life distribution over exposure, in plain numbers of one exposure unit, as scenarios hold it. */
export type Life = {
  [Name in DistributionName]: { readonly distribution: Name } & ValuesOf<Distributions[Name]['parameters']>;
}[DistributionName];

function isName(name: string): name is DistributionName {
  return Object.hasOwn(DISTRIBUTIONS, name);
}

/** In the order in which they are listed. */
export const DISTRIBUTION_NAMES: readonly DistributionName[] = Object.keys(DISTRIBUTIONS).filter(isName);

/** What is declared of a distribution, whichever it is. */
export function declaredOf(name: DistributionName): Declared {
  return DISTRIBUTIONS[name];
}

/** The distribution that a life describes, its constants worked out once. */
export function compileLife(life: Life): LifeDistribution {
  const { distribution, ...values } = life;
  return declaredOf(distribution).compile(values);
}

/** Whether a record holds the name of a distribution and a number for each of its parameters. */
export function isLife(record: { readonly distribution: string }): record is Life {
  const { distribution } = record;
  return isName(distribution) && parametersIn(declaredOf(distribution).parameters, record) !== null;
}

/** A parameter with its value, and the keys that lead to it in a life. */
export interface ParameterValue {
  readonly at: readonly string[];
  readonly parameter: Parameter;
  readonly value: number;
}

/** The parameters of a life. */
export function parametersOf(life: Life): readonly ParameterValue[] {
  return parametersIn(declaredOf(life.distribution).parameters, life) ?? [];
}

/** The parameters that a distribution declares, with the keys that lead to each. */
export function placesOf(parameters: Parameters): readonly Omit<ParameterValue, 'value'>[] {
  return Object.entries(parameters).flatMap(([name, one]) =>
    isParameter(one)
      ? [{ at: [name], parameter: one }]
      : placesOf(one).map(({ at, parameter }) => ({ at: [name, ...at], parameter })),
  );
}

export function isParameter(one: Parameter | Parameters): one is Parameter {
  return typeof one.is === 'string';
}

/** Null where one is missing. */
function parametersIn(parameters: Parameters, record: object): readonly ParameterValue[] | null {
  const found = placesOf(parameters).map(({ at, parameter }) => ({ at, parameter, value: numberAt(record, at) }));
  const whole = found.filter((each): each is ParameterValue => each.value !== null);
  return whole.length === found.length ? whole : null;
}

function numberAt(record: object, at: readonly string[]): number | null {
  let value: unknown = record;
  for (const key of at) {
    if (typeof value !== 'object' || value === null) return null;
    value = Object.entries(value).find(([name]) => name === key)?.[1];
  }
  return typeof value === 'number' ? value : null;
}
