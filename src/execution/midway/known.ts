import type { Use } from '../../probe/tip.js';
import type { Judgement } from '../../campaign/state.js';

/**
 * What people know of a campaign that is under way. Unlike a `CampaignState` it does not tell what is hidden: the true
 * quality of what was kept, and what has happened to the tip unnoticed. Times are microseconds on the campaign's clock,
 * images and regions go by their numbers from 0.
 */
export interface KnownCampaign {
  readonly now: number;
  /** End of the granted time; null where none is granted. */
  readonly grantedUntil: number | null;
  /** By image of the plan. */
  readonly images: readonly KnownImage[];
  readonly instruments: readonly KnownInstrument[];
}

/** `flagged` means that it is to be taken again, or is given up where no attempt is left. */
export const FATES = ['not yet', 'kept', 'unreviewed', 'flagged'] as const;
export type KnownFate = (typeof FATES)[number];

export interface KnownImage {
  readonly fate: KnownFate;
  readonly takes: number;
}

/**
 * `not begun`: nothing is set up; `at work`: the tip is at the surface with its region in the frame; `retracted`: warm, the
 * tip away from the surface; `closed`: it has stood idle, and opens as after a closing.
 */
export const STANDINGS = ['not begun', 'at work', 'retracted', 'closed'] as const;
export type Standing = (typeof STANDINGS)[number];

export interface KnownInstrument {
  readonly standing: Standing;
  /** The sample that is on; null before the set-up. */
  readonly sample: number | null;
  /** Samples of which nothing more can be scanned, as no specimen is left. */
  readonly lostSamples: readonly number[];
  /** The region in place, counted through all samples. */
  readonly region: number | null;
  /** The tip that is on. */
  readonly tip: KnownTip | null;
  /** In the order of parking. */
  readonly parked: readonly KnownTip[];
  /** Sites of the chip on the stage that are used or dead, by kind; kinds without an entry have all of theirs. */
  readonly sitesUsed: readonly (readonly [kind: number, sites: number])[];
  /** What is left on each shelf; shelves without an entry are as at the start. */
  readonly left: readonly (readonly [what: string, count: number])[];
}

export interface KnownTip {
  readonly kind: number;
  /** Since new. */
  readonly use: Readonly<Use>;
  /** It has passed a check since new: what is known of it counts from the last one. Else it counts from new. */
  readonly isChecked: boolean;
  /** Images of its unflagged takes since then, in the order of taking. */
  readonly since: readonly number[];
  /** The image of its last take where that was flagged and is why the tip is judged; else null. */
  readonly flaggedImage: number | null;
  readonly judgement: Judgement;
  /** Apex radius (nm) that was read then; null where it was not. */
  readonly radius: number | null;
}
