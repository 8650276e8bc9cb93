import type { TopLevelSpec } from 'vega-lite';
import type { Summary } from '../../study/results.js';
import { calendarScale, workScale, type Scale } from '../format.js';
import { cycled, STRATEGY_DASHES, STRATEGY_SHAPES, STRATEGY_TONES } from '../palette.js';
import type { Table } from '../table.js';
import { uniqueLabels } from '../text.js';

/** One chart: a picture, what to read from it, and its numbers. */
export interface Chart {
  /** Name of its files and of its place in the page. */
  readonly id: string;
  readonly title: string;
  /** One or two sentences under the picture. */
  readonly caption: (summary: Summary) => string;
  /** The picture with its data inside; null where there is nothing to draw, which the caption then says. */
  readonly spec: (summary: Summary) => TopLevelSpec | null;
  /** What a person who cannot see the picture is told. */
  readonly alt: (summary: Summary) => string;
  readonly table: (summary: Summary) => Table;
}

/** Width of every chart, in CSS pixels at the usual text size. */
export const WIDTH = 860;

export const SCHEMA = 'https://vega.github.io/schema/vega-lite/v6.json';

/** Names of the strategies, short enough for axes and legends, in order. */
export function strategyLabels(summary: Summary): readonly string[] {
  return uniqueLabels(
    summary.strategies.map((strategy) => strategy.name),
    26,
  );
}

/** Scales that give a strategy the same colour, dash and shape in every chart. */
export function strategyScales(summary: Summary): {
  color: { domain: string[]; range: string[] };
  dash: { domain: string[]; range: number[][] };
  shape: { domain: string[]; range: string[] };
} {
  const domain = [...strategyLabels(summary)];
  return {
    color: { domain, range: domain.map((_, place) => cycled(STRATEGY_TONES, place).light) },
    dash: { domain, range: domain.map((_, place) => [...cycled(STRATEGY_DASHES, place)]) },
    shape: { domain, range: domain.map((_, place) => cycled(STRATEGY_SHAPES, place)) },
  };
}

/** Unit of the time that strategies are compared by. */
export function timeScale(summary: Summary): Scale {
  const longest = Math.max(...summary.strategies.map((strategy) => strategy.measures[summary.timeMeasure].value));
  return summary.timeMeasure === 'instrumentTime' ? workScale(longest) : calendarScale(longest);
}

export function timeName(summary: Summary): string {
  return summary.timeMeasure === 'instrumentTime' ? 'instrument time' : 'total time';
}

/** A domain for numbers that may all be one: never of no width. */
export function padded(values: readonly number[], margin = 0.06): [number, number] {
  const low = Math.min(...values);
  const high = Math.max(...values);
  const room = high > low ? (high - low) * margin : Math.max(Math.abs(high) * 0.1, 0.01);
  return [low - room, high + room];
}
