/** What `fit --drift` finds, as plain data: everything that is shown or written is made from it. */

import type { DisturbanceKind } from '../../../probe/drift.js';
import type { NoDriftFit } from '../../../survival/drift-fit.js';
import type { DriftForm } from '../../../survival/drift-likelihood.js';
import type { Provenance } from '../../../analysis/about.js';
import type { AboutLog, Interval, Uncertainty } from '../results.js';

export const DRIFT_FIT_FORMAT = 'swap-or-hop fit --drift';

export const WORKFLOWS = ['swap', 'hop'] as const;
export type WorkflowName = (typeof WORKFLOWS)[number];

/** What was fitted to the readings after disturbances of a kind; rates in nm/s, times in s. */
export interface DriftParameters {
  /** Rate right after a disturbance, median over disturbances, and its geometric standard deviation. */
  readonly rate: Interval;
  readonly geometricSd: Interval;
  /** Time in which it falls to 1/e. */
  readonly decay: Interval;
  readonly steady: Interval;
  /** Standard deviation of a reading, in nm/s or nm; over the stated one where the table states errors. */
  readonly error: Interval;
}

/** Over disturbances: the median of a rate, the least and the greatest, nm/s. */
export interface OverDisturbances {
  readonly median: number;
  readonly least: number;
  readonly greatest: number;
}

/** Rates from the settling time on, disturbance by disturbance, in the terms of ISO 11039. */
export interface SettledDrift {
  /** With readings enough after the settling time. */
  readonly disturbances: number;
  readonly typicalAverage: OverDisturbances;
  readonly typicalMaximum: OverDisturbances;
}

/** A rate as it was read, or from one displacement to the next, at the middle of the time between. */
export interface RateRead {
  readonly disturbance: string;
  /** Seconds since the disturbance ended. */
  readonly time: number;
  readonly rate: number;
}

/** The fitted rate after a disturbance of the median, and between which 95 % of disturbances lie. */
export interface DriftCurvePoint {
  readonly time: number;
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** Drift after disturbances of one kind. */
export interface DriftKindFit {
  readonly kind: DisturbanceKind;
  readonly disturbances: number;
  readonly readings: number;
  /** Null where nothing could be fitted, for this reason. */
  readonly parameters: DriftParameters | null;
  readonly reason: NoDriftFit['reason'] | null;
  /** Which of the parameters the readings do not tell from none. */
  readonly notTold: readonly ('geometricSd' | 'steady')[];
  /** Of rate, geometric SD, decay and steady rate, as a scenario holds it; without those whose best value is none. */
  readonly uncertainty: Uncertainty;
  readonly logLikelihood: number | null;
  readonly settled: SettledDrift | null;
  readonly rates: readonly RateRead[];
  readonly curve: readonly DriftCurvePoint[];
  readonly warnings: readonly string[];
}

export interface DriftFitSummary extends Provenance {
  readonly format: typeof DRIFT_FIT_FORMAT;
  /** Raised when a field changes its meaning or goes. */
  readonly formatVersion: 2;
  readonly log: AboutLog;
  readonly form: DriftForm;
  readonly confidence: { readonly level: number };
  /** Time from which on rates count as settled, in seconds. */
  readonly settling: number;
  /** Workflows for which the readings hold. */
  readonly workflows: readonly WorkflowName[];
  readonly kinds: readonly DriftKindFit[];
  /** The steady rate, which a scenario has one of, is that of the kind that tells it best; null where nothing was fitted. */
  readonly steadyFrom: DisturbanceKind | null;
  readonly warnings: readonly string[];
}
