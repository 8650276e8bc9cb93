import type { TopLevelSpec } from 'vega-lite';
import { NEUTRALS } from '../palette.js';
import { linesOf } from '../text-width.js';
import { type Axis, axisRoom, position } from './axes.js';
import type { Drawing, Look } from './chart.js';
import { chartConfig } from './config.js';
import { legendOf, type LegendStyle } from './legend.js';
import type { Frame, Mark } from './marks.js';

export const SCHEMA = 'https://vega.github.io/schema/vega-lite/v6.json';

/** Room beside a plot for half the last name on its axis, and between panels. */
const RIGHT = 20;
const GAP = 22;
/** Pixels that a panel needs at least to stand beside another. */
const LEAST = 280;

/** One plot of a picture. */
export interface Panel {
  readonly title?: string;
  /** Under the title, or in its place: what the upright axis shows, unless it says so itself. */
  readonly note?: string | null;
  readonly height: number;
  readonly x: Axis;
  readonly y: Axis;
  readonly marks: readonly Mark[];
  /** Width of the plot, where its axis does not say what stands beside it. */
  readonly across?: number;
}

export interface Picture {
  readonly panels: readonly Panel[];
  /** Panels side by side at most. */
  readonly columns?: number;
  readonly looks?: readonly Look[];
  readonly legend?: LegendStyle | null;
  readonly spacing?: number;
  /** Some of its marks have looks of their own. */
  readonly hasOwnColours?: boolean;
}

/** How many of so many panels stand side by side, which is no more than wanted. */
export function columnsIn(width: number, panels: number, wanted: number): number {
  return Math.max(1, Math.min(wanted, panels, Math.floor(width / LEAST)));
}

/** Width of each of so many plots side by side, when names take this much room to the left of the first. */
export function plotWidth(width: number, room: number, columns = 1): number {
  return Math.floor((width - 12 - room - (columns - 1) * GAP) / columns - RIGHT);
}

/** Panels in rows, under one legend. */
export function picture(given: Picture): Drawing {
  return (width) => pictureIn(given, width);
}

function pictureIn(given: Picture, width: number): TopLevelSpec {
  const { panels, looks = [], legend, spacing = GAP } = given;
  const columns = columnsIn(width, panels.length, given.columns ?? 1);
  const room = (width - 12 - (columns - 1) * spacing) / columns;
  const hasLegend = legend !== null && legend !== undefined && looks.length > 0;
  const shown = hasLegend ? legendOf(looks, legend, width - 12) : null;
  return {
    $schema: SCHEMA,
    config: { ...chartConfig(), concat: { spacing } },
    columns,
    align: 'each',
    concat: panels.map((panel) => ({
      ...(given.hasOwnColours === true ? { resolve: { scale: { color: 'independent' } } } : {}),
      ...layered(panel, { looks, legend: shown, width: width - 12 }, room),
    })),
  };
}

/** A panel as layers of its marks. */
function layered({ title, note, height, x, y, marks, ...given }: Panel, shared: Omit<Frame, 'x' | 'y'>, width: number) {
  const across = given.across ?? Math.round(width - axisRoom(y) - RIGHT);
  const frame = { ...shared, x: position(x, 'x', across), y: position(y, 'y', height) };
  return {
    ...heading(title, note ?? ('hidden' in y ? null : y.title), width),
    width: across,
    height,
    layer: marks.flatMap((each) => each(frame)),
  };
}

function heading(title: string | undefined, note: string | null, width: number) {
  const beneath = note === null ? [] : linesOf(note, 12.5, width);
  if (title === undefined)
    return note === null ? {} : { title: { text: beneath, fontWeight: 'normal' as const, fontSize: 12.5 } };
  const style = { subtitleFontSize: 12.5, subtitleColor: NEUTRALS.ink.light };
  return { title: { text: linesOf(title, 14, width), ...(note === null ? {} : { subtitle: beneath, ...style }) } };
}
