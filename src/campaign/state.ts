import type { DisturbanceKind, DriftState } from '../probe/drift.js';
import type { TipState } from '../probe/tip-state.js';

/**
 * Where a campaign stands between two steps, as plain data: what comes next depends on this and on the random variation alone. Times
 * are microseconds on the campaign's clock (Monday 00:00 is 0), images go by their number in the plan, from 0.
 */
export interface CampaignState {
  readonly instruments: readonly InstrumentState[];
}

/** One instrument. */
export interface InstrumentState {
  /** The moment at which it stands so. */
  readonly at: number;
  /** Sample and first tip have been set up. */
  readonly isSetUp: boolean;
  /** The sample on the instrument; null before the set-up. */
  readonly sample: number | null;
  /** Samples whose first specimen is prepared; empty where samples need no preparation. */
  readonly prepared: readonly number[];
  readonly region: number | null;
  /** Regions that were located since this sample was put on. */
  readonly visited: readonly number[];
  readonly station: StationState;
  readonly worklist: WorklistState;
  readonly shelves: readonly ShelfState[];
  readonly tips: TipsState;
  /** The chip on the stage; null in a workflow that has none. */
  readonly chip: ChipState | null;
  /** Where the last specimen was lost, and how many were in a row; null where none was. */
  readonly lost: { readonly region: number; readonly specimens: number } | null;
  readonly takes: readonly TakeState[];
  /** Takes of an image that no longer count against its attempts. */
  readonly attemptsFrom: readonly (readonly [image: number, takes: number])[];
  /** Takes that wait for an operator's review, oldest first. */
  readonly unreviewed: readonly TakeName[];
  /** The image taken last. */
  readonly last: number | null;
}

export interface StationState {
  readonly engaged: boolean;
  readonly found: boolean;
  readonly warm: boolean;
  /** End of the booking in which it last worked; null where there is no closing, 0 where it has not worked. */
  readonly bookedUntil: number | null;
  readonly lastWorked: number;
  /** Openings in a row without a scan. */
  readonly openings: number;
  /** The image for whose pass the last approach was. */
  readonly due: number | null;
  /** How often each step was done, by its number. */
  readonly occurrences: readonly number[];
  /** How often specimens of each sample were prepared. */
  readonly preparations: readonly (readonly [sample: number, times: number])[];
  /** Null where nothing drifts, or all has settled when the campaign is taken up. */
  readonly drift: InstrumentDriftState | null;
}

/** The latest disturbances of an instrument, and how many there were. */
export interface InstrumentDriftState {
  readonly latest: DriftState;
  readonly disturbances: Readonly<Record<DisturbanceKind, number>>;
}

export interface WorklistState {
  /** Images whose turn in the plan is still to come, in plan order. */
  readonly turns: readonly number[];
  /** To be taken again in the region in place. */
  readonly again: readonly number[];
  /** To be taken again when the plan is through for their sample. */
  readonly repeats: readonly number[];
  /** The sample that is measured. */
  readonly sample: number;
  /** Samples of which nothing more can be taken, as no specimen is left. */
  readonly lostSamples: readonly number[];
}

export interface ShelfState {
  readonly what: string;
  readonly left: number;
  /** When the delivery under way comes. */
  readonly delivery: number;
}

export interface TipsState {
  readonly mounted: MountedState | null;
  readonly parked: readonly MountedState[];
  /** New tips put on so far, by kind. */
  readonly mountings: readonly (readonly [kind: number, count: number])[];
  readonly mountingsSinceScan: number;
}

/** What the last review or check said of a tip. */
export type Judgement = 'sound' | 'flagged by an image' | 'failed a check';

/** A tip that is on or parked, and what is known of it. */
export interface MountedState {
  readonly kind: number;
  readonly number: number;
  readonly tip: TipState;
  readonly mountedAt: number;
  readonly judgement: Judgement;
  readonly seenBroken: boolean;
  readonly cleanings: number;
  readonly reconditionings: number;
  readonly radiusRead: number;
  readonly passedAt: number;
  /** It was cleaned, reconditioned or parked then: earlier takes that are flagged late do not judge it. -1 if never. */
  readonly clearedAt: number;
  readonly isUnchecked: boolean;
  /** Its takes since its last passed check. */
  readonly unconfirmed: readonly TakeName[];
}

export interface ChipState {
  readonly chip: number;
  /** Next site by kind. */
  readonly nextSite: readonly (readonly [kind: number, site: number])[];
  readonly kindBefore: number | null;
  readonly hopsSinceCoarse: number;
  readonly isBroken: boolean;
}

/** A take by its image and its running number. */
export interface TakeName {
  readonly image: number;
  readonly running: number;
}

export function nameOf(take: { readonly image: { readonly number: number }; readonly running: number }): TakeName {
  return { image: take.image.number, running: take.running };
}

/** Drift of one image. */
export interface ImageDrift {
  /** Rate at its start, nanometres a second. */
  readonly rate: number;
  /** From its first line to its last, nanometres. */
  readonly displacement: number;
  /** Factor on its quality. */
  readonly quality: number;
}

export interface TakeState extends TakeName {
  /** Kind and number of the tip; null for one that is neither on nor parked any more. */
  readonly tip: { readonly kind: number; readonly number: number } | null;
  readonly start: number;
  readonly end: number;
  readonly quality: number;
  readonly drift: ImageDrift;
  readonly flaggedAt: number | null;
  readonly flaggedFrom: number | null;
  readonly voidAt: number | null;
  readonly voidFrom: number | null;
}
