import type { TopLevelSpec } from 'vega-lite';
import { NEUTRALS, type Tone } from '../palette.js';
import type { position } from './axes.js';
import type { Look } from './chart.js';
import { type Legend, legendOf, type LegendStyle } from './legend.js';

/** A layer of a picture, as vega-lite has it. */
export type Layer = Extract<TopLevelSpec, { layer: unknown }>['layer'][number];

/** Where a mark stands along an axis: a number, or the name of a place. */
type At = number | string;

/** One thing to draw; x2 and y2 are the other end of what has an extent. */
export interface Datum {
  readonly x?: At;
  readonly x2?: number;
  readonly y?: At;
  readonly y2?: number;
  /** Name of its look. */
  readonly look?: string;
  readonly text?: string;
}

/** Something with an interval at a place. */
export interface Spanned {
  readonly x: At;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly look?: string;
}

/** What marks share within a panel. */
export interface Frame {
  readonly x: ReturnType<typeof position>;
  readonly y: ReturnType<typeof position>;
  readonly looks: readonly Look[];
  readonly legend: Legend | null;
  /** Of the whole picture. */
  readonly width: number;
}

/** Layers that draw data into a panel. */
export type Mark = (frame: Frame) => readonly Layer[];

/** A mark in looks of its own, under a legend of its own; its panel must have its own colours. */
export function withLooks(looks: readonly Look[], style: LegendStyle, drawn: Mark): Mark {
  return (frame) => drawn({ ...frame, looks, legend: legendOf(looks, style, frame.width) });
}

interface Style {
  /** For data without looks of their own. */
  readonly tone?: Tone;
  readonly width?: number;
  readonly dash?: readonly number[];
  readonly opacity?: number;
  readonly isClipped?: boolean;
  /** In steps from one point to the next. */
  readonly isStepped?: boolean;
}

const stepped = ({ isStepped = false, isClipped = false }: Style) => ({
  ...(isStepped ? { interpolate: 'step-after' as const } : {}),
  ...(isClipped ? { clip: true } : {}),
});

const painted = ({ tone }: Style) => (tone === undefined ? {} : { color: tone.light });

/** Where data stand and how they look, as far as they say so. */
function encoded(data: readonly Datum[], { x, y, looks, legend }: Frame, ...channels: ('strokeDash' | 'shape')[]) {
  const [first] = data;
  const look = (range: (look: Look) => string | number[]) => ({
    field: 'look',
    type: 'nominal' as const,
    scale: { domain: looks.map(({ name }) => name), range: looks.map(range) },
    legend,
  });
  const has = { dash: channels.includes('strokeDash'), shape: channels.includes('shape') };
  return {
    ...(first.x === undefined ? {} : { x }),
    ...(first.x2 === undefined ? {} : { x2: { field: 'x2' } }),
    ...(first.y === undefined ? {} : { y }),
    ...(first.y2 === undefined ? {} : { y2: { field: 'y2' } }),
    ...(first.look === undefined
      ? {}
      : {
          color: look(({ tone }) => tone.light),
          ...(has.dash ? { strokeDash: look(({ dash }) => [...(dash ?? [1, 0])]) } : {}),
          ...(has.shape ? { shape: look(({ shape }) => shape ?? 'circle') } : {}),
        }),
  };
}

/** What to draw `data` with, and nothing where there are none: an empty layer would make up an axis. */
function mark(data: readonly Datum[], layers: (frame: Frame) => readonly Layer[]): Mark {
  return (frame) => (data.length === 0 ? [] : layers(frame));
}

const values = (data: readonly Datum[]) => ({ values: data.map((each) => ({ ...each })) });

/** Lines through points, one a look. */
export function line(data: readonly Datum[], style: Style = {}, dots = 0): Mark {
  return mark(data, (frame) => [
    {
      data: values(data),
      mark: {
        type: 'line',
        strokeWidth: style.width ?? 2.2,
        ...painted(style),
        ...(style.dash === undefined ? {} : { strokeDash: [...style.dash] }),
        ...(style.opacity === undefined ? {} : { opacity: style.opacity }),
        ...stepped(style),
        ...(dots > 0 ? { point: { size: dots, ...painted(style) } } : {}),
      },
      encoding: encoded(data, frame, 'strokeDash'),
    },
  ]);
}

/** The stretch between y and y2, one a look. */
export function area(data: readonly Datum[], style: Style = {}): Mark {
  return mark(data, (frame) => [
    {
      data: values(data),
      mark: { type: 'area', opacity: style.opacity ?? 0.16, ...painted(style), ...stepped(style) },
      encoding: encoded(data, frame),
    },
  ]);
}

/** Straight lines: between both ends, or all through the panel along the axis that data leave open; those of looks in their dashes if asked. */
export function rule(data: readonly Datum[], style: Style & { readonly hasDashes?: boolean } = {}): Mark {
  const { tone = NEUTRALS.soft, width = 1, dash, hasDashes = false } = style;
  return mark(data, (frame) => [
    {
      data: values(data),
      mark: {
        type: 'rule',
        strokeWidth: width,
        ...painted({ tone }),
        ...(dash === undefined ? {} : { strokeDash: [...dash] }),
      },
      encoding: hasDashes ? encoded(data, frame, 'strokeDash') : encoded(data, frame),
    },
  ]);
}

/** Filled rectangles between both ends, all through the panel along an axis that data leave open. */
export function box(data: readonly Datum[], style: { tone?: Tone; edge?: Tone | null; edgeWidth?: number } = {}): Mark {
  const { tone = NEUTRALS.faint, edge = null, edgeWidth = 1 } = style;
  return mark(data, (frame) => [
    {
      data: values(data),
      mark: {
        type: 'rect',
        ...painted({ tone }),
        ...(edge === null ? {} : { stroke: edge.light, strokeWidth: edgeWidth }),
      },
      encoding: encoded(data, frame),
    },
  ]);
}

/** Rectangles that are drawn around only. */
export function outline(data: readonly Datum[], tone: Tone): Mark {
  return mark(data, (frame) => [
    {
      data: values(data),
      mark: { type: 'rect', filled: false, stroke: tone.light, strokeWidth: 1 },
      encoding: encoded(data, frame),
    },
  ]);
}

interface DotStyle extends Style {
  readonly size?: number;
  readonly edge?: Tone;
  readonly isOpen?: boolean;
}

/** Points, in the shape of their look. */
export function dots(data: readonly Datum[], style: DotStyle = {}): Mark {
  const { size = 80, edge, isOpen = false, opacity = 1, width = 1.5 } = style;
  return mark(data, (frame) => [
    {
      data: values(data),
      mark: {
        type: 'point',
        filled: !isOpen,
        size,
        opacity,
        ...painted(style),
        ...(style.isClipped === true ? { clip: true } : {}),
        ...(edge === undefined ? {} : { stroke: edge.light }),
        ...(edge === undefined && !isOpen ? {} : { strokeWidth: width }),
      },
      encoding: encoded(data, frame, 'shape'),
    },
  ]);
}

interface TextStyle {
  readonly align?: 'left' | 'center' | 'right';
  readonly baseline?: 'top' | 'middle' | 'bottom';
  readonly dx?: number;
  readonly dy?: number;
  readonly size?: number;
  readonly tone?: Tone;
  readonly isBold?: boolean;
  /** On a ground of paper, so that it can be read on anything. */
  readonly hasGround?: boolean;
}

/** Texts at places; x or y that is left out is the middle of the panel, and `at` moves it there to so many pixels. */
export function label(data: readonly Datum[], style: TextStyle = {}, at: { x?: number; y?: number } = {}): Mark {
  const { align, baseline, dx, dy, size = 12, tone = NEUTRALS.ink, isBold = false, hasGround = false } = style;
  const drawn = (paint: object) => ({
    data: values(data),
    mark: {
      type: 'text' as const,
      fontSize: size,
      ...(align === undefined ? {} : { align }),
      ...(baseline === undefined ? {} : { baseline }),
      ...(dx === undefined ? {} : { dx }),
      ...(dy === undefined ? {} : { dy }),
      ...(isBold ? { fontWeight: 700 as const } : {}),
      ...paint,
    },
  });
  return mark(data, (frame) => {
    const encoding = {
      ...encoded(data, frame),
      ...(at.x === undefined ? {} : { x: { value: at.x } }),
      ...(at.y === undefined ? {} : { y: { value: at.y } }),
      text: { field: 'text', type: 'nominal' as const },
    };
    const ground = { color: NEUTRALS.paper.light, stroke: NEUTRALS.paper.light, strokeWidth: 3.5 };
    return [
      ...(hasGround ? [{ ...drawn({ ...ground, strokeJoin: 'round' }), encoding }] : []),
      { ...drawn({ color: tone.light }), encoding },
    ];
  });
}

/** A curve of means in the band of their intervals. */
export function curve(points: readonly Spanned[], style: Style = {}, size = 0): readonly Mark[] {
  return [band(points, style), joined(points, style, size)];
}

export function band(points: readonly Spanned[], style: Style = {}): Mark {
  return area(points.map(spanning), style);
}

/** Their intervals as lines. */
export function intervals(points: readonly Spanned[]): Mark {
  return rule(points.map(spanning), { width: 2.2 });
}

/** Points in the middle of their intervals. */
export function pointsWithIntervals(points: readonly Spanned[], size: number): readonly Mark[] {
  return [intervals(points), dots(points.map(valued), { size })];
}

/** Lines through points with intervals, one a look. */
export function joined(points: readonly Spanned[], style: Style = {}, size = 0): Mark {
  return line(points.map(valued), style, size);
}

/** The same as a point, without its interval. */
function valued({ x, value: y, look }: Spanned): Datum {
  return { x, y, ...(look === undefined ? {} : { look }) };
}

/** Its interval alone. */
function spanning({ x, low: y, high: y2, look }: Spanned): Datum {
  return { x, y, y2, ...(look === undefined ? {} : { look }) };
}
