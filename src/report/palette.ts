/**
 * Colours of every page and chart: one value for light, one for dark. Chosen by a search of our own in OKLCh for the
 * largest least difference (OKLab) under normal sight and simulated protanopia, deuteranopia and tritanopia, with a
 * contrast of 3:1 against the page for strategies; `tests/report/palette.test.ts` computes both again for each mode.
 */

import type { TimePart } from '../campaign/time-parts.js';
import type { Activity } from '../campaign/activities.js';
import type { TipStretch } from '../analysis/results.js';

export interface Tone {
  readonly light: string;
  readonly dark: string;
}

const tone = (light: string, dark: string): Tone => ({ light, dark });

/** Neutral tones of page and axes; their names are the CSS custom properties. */
export const NEUTRALS = {
  paper: tone('#ffffff', '#14171c'),
  raised: tone('#f5f6f8', '#1c2027'),
  ink: tone('#1a1d23', '#eceef2'),
  soft: tone('#525863', '#a9b0bc'),
  line: tone('#c9ced6', '#3b424d'),
  faint: tone('#e7eaee', '#272c34'),
  accent: tone('#0d4db3', '#8ab4ff'),
  warn: tone('#8a2c0d', '#ffb38a'),
  warnpaper: tone('#fdf3ec', '#2c1d15'),
} as const;

export const STRATEGY_TONES: readonly Tone[] = [
  tone('#0b49ac', '#69a0fe'),
  tone('#c08501', '#ecaa2f'),
  tone('#721902', '#b0513a'),
  tone('#109fd2', '#cdeeff'),
  tone('#d54372', '#f15d89'),
  tone('#044348', '#06d3e1'),
  tone('#72610a', '#fdde5c'),
  tone('#460078', '#9660d6'),
];

export const ACTIVITY_TONES: Readonly<Record<Activity, Tone>> = {
  'scanning kept': tone('#016ebe', '#4fa7fc'),
  'scanning lost': tone('#d74d36', '#ed6249'),
  reviewing: tone('#e5cc1b', '#c6af0c'),
  checking: tone('#505107', '#e0e49f'),
  'cleaning and reconditioning': tone('#0fada0', '#6cffef'),
  exchanging: tone('#791f67', '#91377d'),
  'locating and relocating': tone('#a284e0', '#8f71cb'),
  hopping: tone('#7ee090', '#229f6a'),
  'preparing and setting up': tone('#c78b6a', '#f3b391'),
  'warming up and settling': tone('#512f02', '#a16103'),
  'waiting for a booking': tone('#dfe4eb', '#292e36'),
  'waiting for stock': tone('#b9bbbf', '#4c4e52'),
  'waiting for the operator': tone('#717882', '#949ba5'),
};

/** The same tones, for why time was spent in place of what on. */
export const TIME_PART_TONES: Readonly<Record<TimePart, Tone>> = {
  'scans kept': ACTIVITY_TONES['scanning kept'],
  'handling as planned': ACTIVITY_TONES['waiting for the operator'],
  'settling and warming up': ACTIVITY_TONES['waiting for stock'],
  'reviewing, checking and waiting': ACTIVITY_TONES['waiting for a booking'],
  'scans lost to drift': ACTIVITY_TONES['locating and relocating'],
  'scans lost to loss of tracking': ACTIVITY_TONES.reviewing,
  'scans lost to spoiled tips': ACTIVITY_TONES['scanning lost'],
  'good scans lost': ACTIVITY_TONES.hopping,
  'cleaning and replacing flagged tips': ACTIVITY_TONES['warming up and settling'],
  'tries that failed': ACTIVITY_TONES['cleaning and reconditioning'],
  'mishandled exchanges': ACTIVITY_TONES.exchanging,
};

export const TIP_STATE_TONES: Readonly<Record<TipStretch['state'], Tone>> = {
  sound: tone('#a3cdb8', '#2f6b55'),
  chipped: tone('#e656c9', '#9849e7'),
  blunt: tone('#572317', '#e4aca3'),
  fouled: tone('#9b9244', '#fdea73'),
  'worn-out': tone('#865109', '#eb7236'),
  'coating gone': tone('#4319a8', '#9f8ef2'),
  broken: tone('#250200', '#b3fef4'),
};

/** From bad to good: the stronger a cell stands out from the page, the worse it is. */
export const QUALITY_TONES: readonly Tone[] = [
  tone('#4a0d3d', '#feecd0'),
  tone('#8e2157', '#febe69'),
  tone('#cb4f5f', '#ea8163'),
  tone('#ec9a78', '#ad5e6e'),
  tone('#f6d3b3', '#7d3766'),
  tone('#e3ecf3', '#222731'),
];

/** Dashes tell strategies apart without colour; as many as there are tones. */
export const STRATEGY_DASHES: readonly (readonly number[])[] = [
  [1, 0],
  [7, 3],
  [2, 2],
  [9, 3, 2, 3],
  [12, 4],
  [4, 4],
  [1, 3],
  [9, 2, 2, 2, 2, 2],
];
export const STRATEGY_SHAPES: readonly string[] = [
  'circle',
  'square',
  'triangle-up',
  'diamond',
  'cross',
  'triangle-down',
  'triangle-right',
  'triangle-left',
];

/** The item of a list for a place that may lie beyond its end: the list starts over. */
export function cycled<T>(items: readonly T[], place: number): T {
  return items[place % items.length];
}

/** Every tone by the name of its CSS custom property. */
export function customProperties(): ReadonlyMap<string, Tone> {
  const all = new Map<string, Tone>(Object.entries(NEUTRALS));
  STRATEGY_TONES.forEach((each, place) => all.set(`strategy-${String(place + 1)}`, each));
  Object.values(ACTIVITY_TONES).forEach((each, place) => all.set(`activity-${String(place + 1)}`, each));
  Object.values(TIP_STATE_TONES).forEach((each, place) => all.set(`tip-${String(place + 1)}`, each));
  QUALITY_TONES.forEach((each, place) => all.set(`quality-${String(place + 1)}`, each));
  return all;
}
