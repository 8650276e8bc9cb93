import type { Estimate } from '../../statistics/estimate.js';
import type { Slider } from './form.js';

/** What strategies come to at one value. */
export interface AlongPoint {
  readonly at: number;
  /** In the order of the strategies: seconds, and a share. */
  readonly time: readonly Estimate[];
  readonly yield: readonly Estimate[];
  /** In time, less the first strategy; intervals of all points of a strategy hold together. */
  readonly difference: readonly Estimate[];
}

/** What strategies come to along the range of one value. */
export interface Along {
  readonly path: string;
  readonly slider: Slider;
  readonly replications: number;
  readonly strategies: readonly string[];
  /** In the order of the value. */
  readonly points: readonly AlongPoint[];
  /** What was found so far of the best of these values, strategy by strategy. */
  readonly tuned: readonly Tuned[];
  /** The strategy that is tuned now; null once all were that follow the value. */
  readonly isTuning: string | null;
}

/** What `tune` says of the values tried. */
export interface Tuned {
  readonly strategy: string;
  /** The value chosen; null where none was. */
  readonly at: number | null;
  /** As in its report. */
  readonly said: readonly string[];
}

/** The values as `--vary` takes them. */
export function rangeText({ path, slider, points }: Pick<Along, 'path' | 'slider' | 'points'>): string {
  return `${path}=${points.map(({ at }) => writtenIn(slider, at)).join(',')}`;
}

/** A number in the unit of a slider, as the scenario writes it. */
export function writtenIn({ unit }: Slider, at: number): string | number {
  return unit === '' ? at : `${at} ${unit}`;
}
