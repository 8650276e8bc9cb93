import type { ScanLoad } from './scan-load.js';
import type { Cause } from './causes.js';

/** Use of a tip in every unit; fractions of stopped scans count. */
export interface Use {
  images: number;
  /** Millimetres. */
  path: number;
  /** Hours of scanning. */
  hours: number;
  approaches: number;
}

/** What can spoil a tip: a hazard's cause, or what is no hazard of the kind. */
export type SpoiledBy = Cause | 'blunting' | 'mishandling' | 'reconditioning';

export interface Spoiling {
  readonly cause: SpoiledBy;
  /** Microseconds on the campaign's clock. */
  readonly time: number;
  readonly use: Readonly<Use>;
}

/** How far one hazard of one tip has come. */
export interface HazardProgress {
  /** The mark of an event is on the tip. */
  readonly marked: boolean;
  /** Exposure since the tip was new, or since it was last cleared. */
  readonly exposure: number;
  /** Cumulative hazard at which the next event comes. */
  readonly drawn: number;
  /** Events so far. */
  readonly events: number;
  /** Images until a fouled tip clears by itself; null where it never does. */
  readonly clearsIn: number | null;
}

/** Everything about a tip that what comes next depends on, beside its luck. Lengths in nanometres. */
export interface TipState {
  readonly use: Readonly<Use>;
  readonly spoiled: Spoiling | null;
  readonly broken: boolean;
  readonly uncoated: boolean;
  readonly isBlunt: boolean;
  readonly isChipped: boolean;
  readonly scansSinceCheck: number;
  readonly checks: number;
  readonly cleanings: number;
  readonly reconditionings: number;
  readonly radius: number;
  /** Cube of the apex radius, to which blunting adds. */
  readonly cube: number;
  /** Wear coefficient; 0 for a kind that never blunts. */
  readonly wear: number;
  /** In the order of the kind's hazards. */
  readonly hazards: readonly HazardProgress[];
}

/** How a tip begins. */
export const NEW = {
  use: { images: 0, path: 0, hours: 0, approaches: 0 },
  ...{ spoiled: null, broken: false, uncoated: false, isBlunt: false, isChipped: false },
  ...{ scansSinceCheck: 0, checks: 0, cleanings: 0, reconditionings: 0 },
};

/** Use after a fraction of a running scan. */
export function useAfter({ images, path, hours, approaches }: Readonly<Use>, scan: ScanLoad, fraction: number): Use {
  return {
    images: images + fraction,
    path: path + scan.path * fraction,
    hours: hours + (scan.scanTime * fraction) / 3600,
    approaches,
  };
}
