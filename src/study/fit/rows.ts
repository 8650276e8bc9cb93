import type { ExposureUnit } from '../../scenario/exposure.js';
import type { Place } from '../../scenario/places.js';
import type { Ending } from './endings.js';

/** Amounts by what they count. */
export type ByExposure = Readonly<Partial<Record<ExposureUnit, number>>>;

/** One row of a log that can be used: what became of one tip. */
export interface TipRow {
  readonly place: Place;
  readonly tip: string;
  readonly kind: string;
  /** Use when it was taken off, in every exposure that the row gives. */
  readonly use: ByExposure;
  /** Use when it came under observation. */
  readonly entry: ByExposure;
  /** Use at which it was last known to be sound. */
  readonly sound: ByExposure;
  readonly ending: Ending;
  /** In nanonewtons. */
  readonly load: number | null;
  readonly pace: number | null;
}

/** Something to say of a place in a log. */
export interface LogFault extends Place {
  /** `row`: this row is not used; `note`: it is used, but not as it stands. */
  readonly severity: 'row' | 'note';
  readonly message: string;
}
