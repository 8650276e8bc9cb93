import type { TopLevelSpec } from 'vega-lite';
import type { Summary } from '../../study/results.js';
import { workScale, type Scale } from '../format.js';
import { cycled, STRATEGY_DASHES, STRATEGY_SHAPES, STRATEGY_TONES } from '../palette.js';
import type { Table } from '../table.js';
import { textWidth } from '../text-width.js';
import { uniqueLabels } from '../text.js';

/** One chart of the results of a study: a picture, what to read from it, and its numbers. */
export interface Chart<Result = Summary> {
  /** Name of its files and of its place in the page. */
  readonly id: string;
  readonly title: string;
  /** One or two sentences under the picture. */
  readonly caption: (result: Result) => string;
  /** The picture with its data inside; null where there is nothing to draw, which the caption then says. */
  readonly spec: (result: Result) => TopLevelSpec | null;
  /** What a person who cannot see the picture is told. */
  readonly alt: (result: Result) => string;
  readonly table: (result: Result) => Table;
}

/** Width of every chart, in CSS pixels at the usual text size. */
export const WIDTH = 928;

export const SCHEMA = 'https://vega.github.io/schema/vega-lite/v6.json';

/** Results with something for each strategy of a scenario, in its order. */
export interface OfStrategies {
  readonly strategies: readonly { readonly name: string }[];
}

/** Names of the strategies, short enough for axes and legends, in order. */
export function strategyLabels({ strategies }: OfStrategies): readonly string[] {
  return uniqueLabels(
    strategies.map(({ name }) => name),
    26,
  );
}

/** Scales that give a strategy the same colour, dash and shape in every chart. */
export function strategyScales(results: OfStrategies): {
  color: { domain: string[]; range: string[] };
  dash: { domain: string[]; range: number[][] };
  shape: { domain: string[]; range: string[] };
} {
  const domain = [...strategyLabels(results)];
  return {
    color: { domain, range: domain.map((_, place) => cycled(STRATEGY_TONES, place).light) },
    dash: { domain, range: domain.map((_, place) => [...cycled(STRATEGY_DASHES, place)]) },
    shape: { domain, range: domain.map((_, place) => cycled(STRATEGY_SHAPES, place)) },
  };
}

/** Unit of the time that strategies are compared by. */
export function timeScale(summary: Summary): Scale {
  const longest = Math.max(...summary.strategies.map((strategy) => strategy.measures.instrumentTime.value));
  return workScale(longest);
}

/** Columns in which these names fit above or below a picture. */
export function legendColumns(labels: readonly string[]): number {
  const widest = Math.max(...labels.map((label) => textWidth(label, 12)));
  return Math.max(1, Math.min(labels.length, Math.floor((WIDTH - 100) / (widest + 54))));
}

/** Legend of lines, above the picture. */
export function strokeLegend(labels: readonly string[]) {
  return {
    title: null,
    orient: 'top' as const,
    symbolType: 'stroke' as const,
    symbolSize: 500,
    symbolOpacity: 1,
    columns: legendColumns(labels),
  };
}

/** Places of ticks from 0 to `end`, in steps that a person counts in: whole sixths of a day, not tenths. */
export function timeTicks(end: number, scale: Scale, most = 11): number[] {
  const steps: Readonly<Partial<Record<string, readonly number[]>>> = {
    h: [0.5, 1, 2, 3, 4, 6, 8, 12, 24, 48, 72, 120, 168, 240, 500],
    d: [0.5, 1, 2, 3, 7, 14, 28, 56, 84, 182, 364],
  };
  const step = (steps[scale.unit] ?? [1, 2, 5, 10, 15, 20, 30, 60]).find((each) => end / each <= most) ?? end / 5;
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
