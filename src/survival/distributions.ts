import {
  declaredOf,
  type DistributionName,
  DISTRIBUTION_NAMES,
  type FittedDistribution,
  isLife,
  type Life,
  placesOf,
} from '../chance/life.js';

export type { FittedDistribution } from '../chance/life.js';

/** The lives of distributions that can be fitted. */
export type FittedLife = Extract<Life, { distribution: FittedDistribution }>;

/** A parameter of a distribution and the scale on which it is free: any real number is then a sound value. */
export interface DistributionParameter {
  /** As scenario files call it. */
  readonly name: string;
  /** ln of the value, or ln of its ln (a geometric standard deviation, above 1). */
  readonly free: 'log' | 'log-log';
  /** Whether it is in units of exposure. Such a one grows with the exposure, the others stay. */
  readonly isExposure: boolean;
}

/** A distribution as maximum likelihood needs it, its parameters as a list. */
export interface DistributionToFit {
  readonly distribution: FittedDistribution;
  /** In the order of scenario files; the free parameters and their covariance are in the same order. */
  readonly parameters: readonly DistributionParameter[];
  /** The life with these parameters. */
  life(values: readonly number[]): FittedLife;
  /** As in `Fit`, of the life with these parameters. */
  logDensity(values: readonly number[]): (exposure: number) => number;
  mean(values: readonly number[]): number;
  start(logMean: number, logSd: number): readonly number[];
}

/** Whether a distribution can be fitted. */
export function isFitted(name: DistributionName): name is FittedDistribution {
  return declaredOf(name).fit !== undefined;
}

function isFittedLife(life: Life): life is FittedLife {
  return isFitted(life.distribution);
}

/** All that can be fitted. */
export const FITTED: readonly FittedDistribution[] = DISTRIBUTION_NAMES.filter(isFitted);

const known = new Map<FittedDistribution, DistributionToFit>();

/** A distribution made ready for fits. */
export function toFit(distribution: FittedDistribution): DistributionToFit {
  const before = known.get(distribution);
  if (before !== undefined) return before;
  const made = madeReady(distribution);
  known.set(distribution, made);
  return made;
}

function madeReady(distribution: FittedDistribution): DistributionToFit {
  const { parameters, fit } = declaredOf(distribution);
  if (fit === undefined) throw new Error(`${distribution} cannot be fitted`);
  const places = placesOf(parameters).map(({ at: [name], parameter: { is } }) => ({ name, is }));
  const named = (values: readonly number[]) => Object.fromEntries(places.map(({ name }, i) => [name, values[i]]));
  return {
    distribution,
    parameters: places.map(({ name, is }) => ({
      name,
      free: is === 'geometric SD' ? 'log-log' : 'log',
      isExposure: is === 'exposure',
    })),
    life(values) {
      const life = { distribution, ...named(values) };
      if (!isLife(life) || !isFittedLife(life)) throw new Error(`these are no parameters of ${distribution} lives`);
      return life;
    },
    logDensity: (values) => fit.logDensity(named(values)),
    mean: (values) => fit.mean(named(values)),
    start(logMean, logSd) {
      const from = fit.start(logMean, logSd);
      return places.map(({ name }) => from[name]);
    },
  };
}
