import type { Estimate } from '../statistics/estimate.js';
import type { Difference, Summary } from '../analysis/results.js';
import type { Fault } from '../scenario/load.js';
import type { WorthSummary } from '../studies/worth/results.js';
import type { Along } from './engine/along-values.js';
import type { Form } from './engine/form.js';

/** Where a setting is put to be compared with others. */
export type Slot = 'A' | 'B';
export const SLOTS: readonly Slot[] = ['A', 'B'];

/** From the page to its worker, in plain data. */
export type ToWorker =
  /** The scenario as it now reads; `version` counts what the page has asked for. */
  | { readonly kind: 'text'; readonly version: number; readonly text: string }
  /** One value of it, as a person writes it; empty takes it away. */
  | { readonly kind: 'value'; readonly version: number; readonly path: string; readonly value: string }
  | { readonly kind: 'pin'; readonly slot: Slot; readonly isPinned: boolean }
  /** What comes of one value along its range. */
  | { readonly kind: 'along'; readonly path: string }
  /** What to measure first. */
  | { readonly kind: 'worth' }
  /** Replications to come to. */
  | { readonly kind: 'replications'; readonly most: number };

/** What the worker made of a text. */
export interface Reading {
  readonly text: string;
  /** Errors first of all keep a scenario from being run; warnings do not. */
  readonly faults: readonly Fault[];
  /** Null where the text is no scenario. */
  readonly form: Form | null;
}

/** How a measure of a strategy changed from one setting to another, replication by replication. */
export interface Change {
  readonly strategy: string;
  readonly measure: Difference['measure'];
  readonly estimate: Estimate;
}

/** One setting against another: with common random numbers, so that small changes show with few replications. */
export interface Against {
  /** Such as `the last setting`. */
  readonly from: string;
  readonly to: string;
  readonly replications: number;
  readonly changes: readonly Change[];
}

export interface Pinned {
  readonly slot: Slot;
  readonly summary: Summary;
}

/** What is known so far of the setting that the page shows. */
export interface Answer {
  /** Without images and single replications, which the page does not show. */
  readonly summary: Summary;
  /** Whether the ends of ranges, and what is uncertain, have been tried. */
  readonly isTried: boolean;
  readonly against: readonly Against[];
  readonly pinned: readonly Pinned[];
}

/** From the worker to its page. */
export type ToPage =
  | { readonly kind: 'reading'; readonly version: number; readonly reading: Reading }
  | { readonly kind: 'answer'; readonly version: number; readonly answer: Answer }
  /** How far what is under way has come; the phase in words. */
  | { readonly kind: 'progress'; readonly version: number; readonly phase: string; readonly share: number }
  | { readonly kind: 'along'; readonly version: number; readonly along: Along | null }
  | { readonly kind: 'worth'; readonly version: number; readonly worth: WorthSummary }
  | { readonly kind: 'failure'; readonly version: number; readonly message: string };

/** Both ends are of one build, so what looks like a message is one. */
export function isToWorker(data: unknown): data is ToWorker {
  return typeof data === 'object' && data !== null && 'kind' in data;
}

export function isToPage(data: unknown): data is ToPage {
  return typeof data === 'object' && data !== null && 'kind' in data;
}
