/**
 * What a comparison found of a scenario that says how far its values are known: luck and not-knowing apart. Units are
 * those of the summary. A span is central, at the level of the summary's intervals.
 */

import type { ComparedMeasure } from '../compared-measures.js';

export interface Span {
  readonly low: number;
  readonly high: number;
}

/** Variance of one campaign: by luck at the scenario's values, and of the expected value over what is not known. */
export interface Split {
  readonly luck: number;
  readonly notKnowing: number;
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
  readonly luckAlone: Span;
  /** Of one campaign with the values drawn, on the same luck. */
  readonly luckAndNotKnowing: Span;
  /** Of the expected value, over the draws. */
  readonly notKnowing: Span;
  readonly variance: Split;
}

/** Difference of a strategy from the first one. */
export interface KnownDifference {
  readonly strategy: string;
  readonly measure: ComparedMeasure;
  /** Expected difference at the scenario's values, with the interval that simulation leaves it. */
  readonly atValues: { readonly value: number; readonly low: number; readonly high: number };
  /** Of the expected difference, over the draws. */
  readonly notKnowing: Span;
  /** Share of the draws in which the expected difference has the other sign. */
  readonly otherSign: number;
  /** It is told apart at the scenario's values, and the span of what is not known reaches the other sign. */
  readonly turns: boolean;
  readonly variance: Split;
}

/** What one input alone leaves open, all others being as the scenario has them. */
export interface LogNext {
  readonly path: string;
  readonly description: string;
  /** Of each difference from the first strategy; of the measures themselves where there is one strategy only. */
  readonly effects: readonly {
    readonly strategy: string;
    readonly measure: ComparedMeasure;
    readonly notKnowing: Span;
    /** Width of the span as a share of the one of all inputs together; null where that has no width. */
    readonly share: number | null;
    /** Not knowing this input alone could turn the difference, which is told apart at the scenario's values. */
    readonly couldTurn: boolean;
  }[];
}

export interface NotKnowing {
  readonly draws: number;
  /** Replications of each draw, on luck of its own, which the campaigns at the scenario's values meet too. */
  readonly replicationsPerDraw: number;
  readonly inputs: readonly UncertainInput[];
  /** For each strategy and measure. */
  readonly strategies: readonly KnownMeasure[];
  readonly differences: readonly KnownDifference[];
  /** What explains most of the span of a difference in time comes first. */
  readonly logNext: readonly LogNext[];
}
