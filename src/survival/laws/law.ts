import type { Life } from '../../chance/life.js';

/** Laws that a log of lives can be fitted with, by the names that scenario files use. */
export type FittedLaw = 'exponential' | 'weibull' | 'lognormal' | 'gamma';

/** The laws of `Life` that can be fitted. */
export type FittedLife = Extract<Life, { law: FittedLaw }>;

/** A parameter of a law and the scale on which it is free: any real number is then a sound value. */
export interface LawParameter {
  /** As scenario files call it. */
  readonly name: string;
  /** ln of the value, or ln of its ln (a geometric standard deviation, above 1). */
  readonly free: 'log' | 'log-log';
  /** Whether it is in units of exposure. Such a one grows with the exposure, the others stay. */
  readonly isExposure: boolean;
}

/** A law as maximum likelihood needs it: one file a law. */
export interface LawToFit {
  readonly law: FittedLaw;
  /** In the order of scenario files; the free parameters and their covariance are in the same order. */
  readonly parameters: readonly LawParameter[];
  /** The life with these parameters. */
  life(values: readonly number[]): FittedLife;
  /** ln f(x) of the life with these parameters, f the density over exposure x > 0, in 1/exposure. */
  logDensity(values: readonly number[]): (exposure: number) => number;
  /** Mean life, in units of exposure. */
  mean(values: readonly number[]): number;
  /** Rough values to start from: mean and standard deviation of the natural logs of typical lives. */
  start(logMean: number, logSd: number): readonly number[];
}
