/**
 * A life as its cumulative hazard H(x) = -ln S(x) over exposure x, in whatever unit the life is counted. H is the primitive from which
 * all else follows: a unit exponential E is spent where H(x) = E, and x = exposureAt(-ln u) is a life.
 */
export interface LifeDistribution {
  /** H(x), from 0 at x = 0 and never falling. */
  cumulativeHazard(exposure: number): number;
  /** The exposure at which the cumulative hazard reaches h >= 0; Infinity if it never does. */
  exposureAt(hazard: number): number;
}

/** What a parameter is, from which its unit, its limits and the scale on which it is uncertain follow. */
export type ParameterKind = 'exposure' | 'shape' | 'geometric SD' | 'probability';

export interface Parameter {
  readonly is: ParameterKind;
  /** One sentence for editors and the table of assumptions. */
  readonly description: string;
}

/** By the names of scenario files; terms that have parameters of their own are one level deeper. */
export interface Parameters {
  readonly [name: string]: Parameter | Parameters;
}

/** The numbers of such parameters. */
export type ValuesOf<P> = P extends Parameter ? number : { readonly [Name in keyof P]: ValuesOf<P[Name]> };

/** What maximum likelihood needs of a distribution beside its cumulative hazard. */
export interface Fit<Name extends string> {
  /** ln f(x), f the density over exposure x > 0, in 1/exposure. */
  logDensity(values: Readonly<Record<Name, number>>): (exposure: number) => number;
  /** Mean life, in units of exposure. */
  mean(values: Readonly<Record<Name, number>>): number;
  /** Rough values to start from: mean and standard deviation of the natural logs of typical lives. */
  start(logMean: number, logSd: number): Readonly<Record<Name, number>>;
}

/** All that is known of a distribution of lives: one file each, and one line in `../life.ts`. */
export interface Declared<P extends Parameters = Parameters> {
  /** As sentences call it. */
  readonly title: string;
  readonly parameters: P;
  /** The distribution with these parameters, its constants worked out once. */
  compile(values: ValuesOf<P>): LifeDistribution;
  /** Where a log of lives can be fitted with it. */
  readonly fit?: Fit<keyof P & string>;
}

/** Declares a distribution that scenarios may use. */
export function distribution<const P extends Parameters>(declared: Declared<P>): Declared<P> {
  return declared;
}

/** Declares one with which logs can be fitted, too. */
export function fittable<const P extends Parameters>(
  declared: Declared<P> & { readonly fit: Fit<keyof P & string> },
): Declared<P> & { readonly fit: Fit<keyof P & string> } {
  return declared;
}
