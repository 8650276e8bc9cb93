/**
 * What a comparison found of a scenario that says how far its values are known: random variation and parameter uncertainty apart. Units are
 * those of the summary. A span is central, at the level of the summary's intervals.
 */

import type { ComparedMeasure } from './compared-measures.js';
import type { WorthFound } from './worth/results.js';

export interface Span {
  readonly low: number;
  readonly high: number;
}

/** Variance of one campaign: by random variation at the scenario's values, and of the expected value over parameter uncertainty. */
export interface Split {
  readonly random: number;
  readonly parameterUncertainty: number;
}

/** Values of one map of the scenario of which only so much is known. */
export interface UncertainInput {
  /** Of the map, such as `tips.sharp.hazards.breakage`. */
  readonly path: string;
  /** Such as `sharp, breakage: life`. */
  readonly description: string;
  /** From a fit with its covariance, or from ranges given by hand. */
  readonly from: 'fit' | 'range';
  readonly parameters: readonly {
    readonly path: string;
    /** As written in the scenario. */
    readonly value: string;
    /** Ends of its span, such as `15 to 40`. */
    readonly within: string;
  }[];
  /** Draws in which one of its values was brought back to what the schema allows. */
  readonly clipped: number;
  /** Strategies that set one of its values themselves, and keep that. */
  readonly keptBy: readonly string[];
}

export interface KnownMeasure {
  readonly strategy: string;
  readonly measure: ComparedMeasure;
  /** Mean at the scenario's values. */
  readonly atValues: number;
  /** Of one campaign at the scenario's values. */
  readonly randomVariation: Span;
  /** Of one campaign with the values drawn, with common random numbers. */
  readonly withParameterUncertainty: Span;
  /** Of the expected value, over the draws. */
  readonly parameterUncertainty: Span;
  readonly variance: Split;
}

/** Difference of a strategy from the first one. */
export interface KnownDifference {
  readonly strategy: string;
  readonly measure: ComparedMeasure;
  /** Expected difference at the scenario's values, with the interval that simulation leaves it. */
  readonly atValues: { readonly value: number; readonly low: number; readonly high: number };
  /** Of the expected difference, over the draws. */
  readonly parameterUncertainty: Span;
  /** Share of the draws in which the expected difference has the other sign. */
  readonly otherSign: number;
  /** It is clear at the scenario's values, and the span of parameter uncertainty reaches the other sign. */
  readonly turns: boolean;
  readonly variance: Split;
}

export interface ParameterUncertainty {
  readonly draws: number;
  /** Replications of each draw, with random numbers of its own, which the campaigns at the scenario's values meet too. */
  readonly replicationsPerDraw: number;
  readonly inputs: readonly UncertainInput[];
  /** For each strategy and measure. */
  readonly strategies: readonly KnownMeasure[];
  readonly differences: readonly KnownDifference[];
  /** What it is worth to know more of these inputs, from the same draws. */
  readonly worth: WorthFound;
}
