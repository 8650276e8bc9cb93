/** What it is worth to know more before one chooses, as plain data. */

import type { SobolIndices } from '../../statistics/information/sobol.js';

/** An amount with its interval. */
export interface Amount {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** What knowing something is worth, for one campaign. */
export interface Worth {
  /** Instrument hours, for the choice by time. */
  readonly hours: Amount;
  /** In the scenario's currency, for the choice by cost. */
  readonly cost: Amount;
  /** Probability that the choice by time is wrong once it is known. */
  readonly wrong: number;
}

/** One uncertain value, or a group of them that are measured together. */
export interface Subject {
  /** Path of the value, or the path that all of a group begin with. */
  readonly path: string;
  readonly description: string;
  readonly isGroup: boolean;
  /** Central 95 % of what it may be, as written; null for a group. */
  readonly within: string | null;
}

/** Some more records: so many logged tips, or timed steps. */
export interface Records {
  readonly path: string;
  readonly what: 'tips' | 'timings';
  /** Of what, in words, such as `sharp tips`. */
  readonly of: string;
  readonly count: number;
  /** Operator time that it takes to write them down, in seconds. */
  readonly effort: number;
}

export type WorthOfValue<Told = Worth> = Subject & Told;
export type WorthOfRecords<Told = Worth> = Records & Told;

/** What draws of all that is uncertain say of a choice. */
export interface Found<Told> {
  /** Probability that the choice is wrong now. */
  readonly wrongNow: number;
  /** What knowing all of it would be worth. */
  readonly perfect: Told;
  /** Values and groups, what is worth most first. */
  readonly values: readonly WorthOfValue<Told>[];
  /** Records that can be kept: lives of tips kind by kind, then timings of steps, each from few to many. */
  readonly records: readonly WorthOfRecords<Told>[];
}

/** A strategy as the draws have it. */
export interface Choice {
  readonly name: string;
  /** Means over all draws. */
  readonly hours: number;
  readonly cost: number;
}

/** A value with its share in the variance of the first strategy's difference in time from the best other; of its own time where it is the only one. */
export type WeighedValue = WorthOfValue & { readonly indices: SobolIndices };

/** The same for the choice between strategies, which is made by time. */
export interface WorthFound extends Found<Worth> {
  readonly draws: number;
  readonly replicationsPerDraw: number;
  readonly strategies: readonly Choice[];
  /** Names of the strategies that one would choose now. */
  readonly chosen: { readonly byHours: string; readonly byCost: string };
  readonly values: readonly WeighedValue[];
}
