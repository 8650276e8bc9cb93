/** What `fit` finds, as plain data: everything that is shown or written is made from it. */

import type { ExposureUnit } from '../../scenario/exposure.js';
import type { Cause } from '../../scenario/schema/scenario.js';
import type { FittedDistribution } from '../../survival/distributions.js';
import type { Provenance } from '../../analysis/about.js';
import type { WordRead } from './rows.js';

export const FIT_FORMAT = 'swap-or-hop fit';

/** A value with the ends of its interval; an end that the log does not set is null. */
export interface Interval {
  readonly value: number;
  readonly low: number | null;
  readonly high: number | null;
}

/** A share of tips from one exposure to the next, with its interval; ends are null where there is none. */
export interface CurvePoint {
  readonly exposure: number;
  readonly value: number;
  readonly low: number | null;
  readonly high: number | null;
}

/** One distribution of life fitted to one cause. */
export interface DistributionFit {
  readonly distribution: FittedDistribution;
  /** As scenario files call them, with profile-likelihood intervals. */
  readonly parameters: readonly (Interval & { readonly name: string })[];
  readonly logLikelihood: number;
  readonly aic: number;
  /** AIC minus the least of all distributions. */
  readonly aicAboveBest: number;
  readonly mean: number;
}

/** How far the log's load and pace change the life (MODEL.md, section 3): exponents with their intervals. */
export interface Acceleration {
  /** Null where the log has one pace only. */
  readonly pace: Interval | null;
  /** Null where the log has one load only. */
  readonly load: Interval | null;
  /** Of the distribution at pace 1 and the reference load. */
  readonly parameters: readonly (Interval & { readonly name: string })[];
  /** In nanonewtons; the life is meant at this load, and at pace 1. Null where the log says no load. */
  readonly referenceLoad: number | null;
  /** AIC of the distribution without acceleration minus that with it; what is above zero speaks for it. */
  readonly aicGain: number;
  /** Taken into the hazard: the AIC is less with it. */
  readonly isTaken: boolean;
}

/** What a suspicion comes to: the same distribution fitted with those tips as sound, and as ended by this cause. */
export interface SuspicionBounds {
  readonly tips: number;
  readonly asSound: { readonly events: number; readonly median: Interval | null };
  readonly asEvents: { readonly events: number; readonly median: Interval | null };
}

/** Covariance of the logs of values (of ln geometricSd, for a geometric SD; of exponents themselves), as a scenario holds it. */
export interface Uncertainty {
  readonly of: readonly string[];
  readonly covariance: readonly (readonly number[])[];
  /** The ranges that were held before the log, where there were any, in the hazard's exposure unit. */
  readonly prior?: Readonly<Record<string, readonly [number, number]>>;
}

/** A distribution that a range held before the log and the log give together. */
export interface PosteriorLife {
  readonly distribution: FittedDistribution;
  /** With central intervals, and those of the range before. */
  readonly parameters: readonly (Interval & {
    readonly name: string;
    readonly before: { readonly low: number; readonly high: number };
  })[];
}

/** A hazard as a scenario holds it; amounts are in the hazard's own exposure unit. */
export interface FittedHazard {
  readonly cause: Cause;
  readonly per: ExposureUnit;
  readonly distribution: FittedDistribution;
  readonly parameters: readonly { readonly name: string; readonly value: number }[];
  /** What stands under `acceleration`; exponents null where the log says nothing of them. */
  readonly acceleration: {
    readonly pace: number | null;
    readonly load: number | null;
    readonly referenceLoad: number | null;
  };
  readonly uncertainty: Uncertainty;
}

/** The life of tips of one kind with respect to one cause. */
export interface CauseFit {
  readonly kind: string;
  readonly cause: Cause;
  readonly per: ExposureUnit;
  readonly tips: number;
  readonly events: number;
  /** Events of which only an interval of use is known. */
  readonly intervals: number;
  /** Tips that came under observation after some use. */
  readonly late: number;
  /** Tips of this kind whose row does not say this exposure. */
  readonly leftOut: number;
  /** All use that was watched, in the exposure unit. */
  readonly exposure: number;
  /** Kaplan-Meier, each event where it was noticed. */
  readonly survival: readonly CurvePoint[];
  /** Turnbull's estimate from the intervals; null where every event is known exactly. */
  readonly turnbull: readonly CurvePoint[] | null;
  /** Nelson-Aalen, each event where it was noticed. */
  readonly cumulativeHazard: readonly CurvePoint[];
  /** In order of AIC. */
  readonly distributions: readonly DistributionFit[];
  readonly notFitted: readonly { readonly distribution: FittedDistribution; readonly reason: string }[];
  /** Mean life if the hazard did not change with use, from the exposure and the events alone. */
  readonly constantHazard: { readonly mean: number | null; readonly low: number; readonly high: number | null };
  readonly chosen: { readonly distribution: FittedDistribution; readonly how: string } | null;
  /** Of the chosen distribution. */
  readonly median: Interval | null;
  readonly goodness: {
    readonly statistic: string;
    readonly value: number;
    readonly p: number;
    readonly samples: number;
  } | null;
  readonly acceleration: Acceleration | null;
  /** What a scenario's range and the log say together; null where the log speaks alone. */
  readonly posterior: PosteriorLife | null;
  readonly suspicion: SuspicionBounds | null;
  readonly hazard: FittedHazard | null;
  readonly verdict: string;
  readonly warnings: readonly string[];
}

/** Tips of one kind. */
export interface KindFit {
  readonly kind: string;
  readonly tips: number;
  /** Tips by what ended them: `sound`, `suspicion` or a cause. */
  readonly ended: Readonly<Record<string, number>>;
  /** The share that each cause has ended, the others at work too (Aalen-Johansen), per this exposure. */
  readonly per: ExposureUnit;
  readonly incidence: readonly { readonly cause: Cause; readonly points: readonly CurvePoint[] }[];
  readonly causes: readonly CauseFit[];
}

/** One thing that would narrow what is known, the most wanting first. */
export interface LogNext {
  readonly what: string;
  readonly kind: string | null;
  readonly cause: Cause | null;
  /** Upper over lower end of the median life; null where it has no such ends, or none is meant. */
  readonly ratio: number | null;
  readonly advice: string;
}

/** Blunting from measured radii; k in nm³/(nN mm), radii in nm, over tips as median and geometric standard deviation. */
export interface BluntingFit {
  readonly kind: string;
  readonly file: string;
  readonly sha256: string;
  readonly tips: number;
  readonly readings: number;
  /** Of the cone, in degrees. */
  readonly halfAngle: number;
  readonly coefficient: Interval;
  readonly coefficientGeometricSd: Interval;
  readonly radius: Interval;
  readonly radiusGeometricSd: Interval;
  readonly wearUncertainty: Uncertainty;
  readonly radiusUncertainty: Uncertainty;
}

/** Something of the log that is not used, or not as it stands. */
export interface RowNote {
  readonly line: number;
  readonly column: number;
  readonly message: string;
}

/** The log that was read. */
export interface AboutLog {
  /** Base name. */
  readonly file: string;
  readonly sha256: string;
  /** Given, or the last date that stands in it; null where there is none. */
  readonly date: string | null;
  readonly rows: number;
  readonly used: number;
  /** Sums at the foot, and kinds that are not wanted. With `used` and `notUsed` it makes up `rows`. */
  readonly leftOut: number;
  readonly columns: readonly { readonly role: string; readonly header: string; readonly unit: string | null }[];
  readonly unread: readonly string[];
  readonly readAs: readonly WordRead[];
  readonly notUsed: readonly RowNote[];
}

export interface FitSummary extends Provenance {
  readonly format: typeof FIT_FORMAT;
  /** Raised when a field changes its meaning or goes. */
  readonly formatVersion: 2;
  readonly log: AboutLog;
  readonly seed: string;
  readonly confidence: { readonly level: number };
  readonly kinds: readonly KindFit[];
  /** One for each kind of which radii were read. */
  readonly blunting: readonly BluntingFit[];
  readonly logNext: readonly LogNext[];
  readonly warnings: readonly string[];
}
