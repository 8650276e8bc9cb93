import { nameIn } from '../../scenario/describe.js';
import type { Scale } from '../../wording/numbers.js';
import { capital } from '../../wording/phrases.js';
import { NEUTRALS } from '../palette.js';
import { shortened } from '../text.js';
import { linesOf, textWidth } from '../text-width.js';

/** An axis of numbers. */
export interface NumberAxis {
  readonly title: string | null;
  /** Left open, it goes from the least to the greatest number, rounded. */
  readonly domain?: readonly [number, number];
  readonly isLog?: boolean;
  /** As d3-format has it. */
  readonly format?: string;
  /** Time in this unit, with ticks in steps that a person counts in. */
  readonly time?: Scale;
  /** Labels at places of their own; one of several lines as a list. */
  readonly ticks?: readonly { readonly at: number; readonly label: string | readonly string[] }[];
  readonly hasTicks?: boolean;
  readonly isWhole?: boolean;
  readonly grid?: boolean;
  /** Without numbers, since the same axis stands below. */
  readonly isBare?: boolean;
}

/** An axis of named places, in their order. */
export interface PlaceAxis {
  readonly title: string | null;
  readonly places: readonly string[];
}

/** `hidden` for a domain whose marks speak for themselves. */
export type Axis = NumberAxis | PlaceAxis | { readonly hidden: readonly [number, number] };

export const PERCENT = '.0%';

/** Pixels beside a plot for the numbers of its axis; nothing is put there by an axis that is hidden. */
const NUMBERS = 46;

/** Pixels to the left of a plot that its axis needs. */
export function axisRoom(axis: Axis): number {
  if ('hidden' in axis) return 0;
  return 'places' in axis ? nameRoom(axis.places) : NUMBERS;
}

/** Pixels to the left of a picture that the longest of these names needs. */
export function nameRoom(names: readonly string[]): number {
  return Math.max(...names.map((name) => textWidth(name, 12))) + 14;
}

/** The encoding of a position along an axis of so many pixels; both fields of the data are called by its letter. */
export function position(axis: Axis, letter: 'x' | 'y', pixels: number) {
  if ('hidden' in axis) {
    const scale = { domain: [...axis.hidden], nice: false, zero: false };
    return { field: letter, type: 'quantitative' as const, scale, axis: null };
  }
  if ('places' in axis) return places(axis, letter, pixels);
  const { title, domain, isLog = false, format = '~f', grid = letter === 'y', isBare = false, hasTicks = true } = axis;
  const [low, high] = domain ?? [];
  return {
    field: letter,
    type: 'quantitative' as const,
    title: isBare || letter === 'y' ? null : titled(title, pixels),
    scale: {
      ...(isLog ? { type: 'log' as const } : { zero: false }),
      ...(low === undefined || high === undefined ? { nice: letter === 'y' } : { domain: [low, high], nice: false }),
    },
    axis: {
      grid,
      labels: !isBare,
      ...(hasTicks ? {} : { ticks: false }),
      labelOverlap: true,
      ...(letter === 'y' ? { minExtent: NUMBERS - 14 } : {}),
      ...(axis.isWhole === true ? { tickMinStep: 1 } : {}),
      ...ticks(axis, letter === 'x' ? pixels / 84 : pixels / 44, format),
    },
  };
}

function ticks({ domain, time, ticks: given }: NumberAxis, room: number, format: string) {
  if (given !== undefined) {
    const labels = given.map(({ label }) => label);
    const values = given.map(({ at }) => at);
    return { values, labelExpr: `${JSON.stringify(labels)}[indexof(${JSON.stringify(values)}, datum.value)]` };
  }
  const most = Math.max(2, Math.min(11, Math.round(room)));
  if (time !== undefined && domain !== undefined) return { format, values: timeTicks(domain[1], time, most) };
  return { format, tickCount: most };
}

/** A title in lines no wider than its axis. */
function titled(title: string | null, pixels: number): string[] | null {
  return title === null ? null : linesOf(title, 12.5, pixels);
}

function places({ title, places: names }: PlaceAxis, letter: 'x' | 'y', pixels: number) {
  return {
    field: letter,
    type: 'ordinal' as const,
    title: letter === 'y' ? null : titled(title, pixels),
    sort: [...names],
    scale: { domain: [...names] },
    axis: {
      labelAngle: 0,
      labelOverlap: true,
      grid: false,
      domain: false,
      ticks: false,
      ...(letter === 'y' ? { labelColor: NEUTRALS.ink.light } : {}),
    },
  };
}

/** What is varied, as an axis says it: by its name in words, with the unit of its numbers. */
export function rangeTitle(description: string, unit = ''): string {
  const name = capital(shortened(nameIn(description), 70));
  return unit === '' ? name : `${name} (${unit})`;
}

/** Places of ticks from 0 to `end`, in steps that a person counts in: whole sixths of a day, not tenths. */
export function timeTicks(end: number, scale: Scale, most = 11): number[] {
  const steps: Readonly<Partial<Record<string, readonly number[]>>> = {
    h: [0.5, 1, 2, 3, 4, 6, 8, 12, 24, 48, 72, 120, 168, 240, 500],
    d: [0.5, 1, 2, 3, 7, 14, 28, 56, 84, 182, 364],
  };
  const step = (steps[scale.unit] ?? [1, 2, 5, 10, 15, 20, 30, 60]).find((each) => end / each <= most) ?? end / most;
  return Array.from({ length: Math.floor(end / step + 1e-9) + 1 }, (_, place) => place * step);
}

/**
 * A domain for numbers that may all be one, with a margin on both sides. It is never narrower than `least`, so that what
 * hardly differs does not look far apart.
 */
export function padded(values: readonly number[], margin: number, least: number): [number, number] {
  const low = Math.min(...values);
  const high = Math.max(...values);
  const room = Math.max((high - low) * margin, (least - (high - low)) / 2);
  return [low - room, high + room];
}
