import { type Scale, workScale } from '../../wording/numbers.js';
import type { TopLevelSpec } from 'vega-lite';
import type { Summary } from '../../analysis/results.js';
import { cycled, STRATEGY_DASHES, STRATEGY_SHAPES, STRATEGY_TONES, type Tone } from '../palette.js';
import type { Table } from '../table.js';
import { uniqueLabels } from '../text.js';

/** A picture that is drawn for the width it gets, in CSS pixels at the usual text size. */
export type Drawing = (width: number) => TopLevelSpec;

/** One chart of the results of a study: a picture, what to read from it, and its numbers. */
export interface Chart<Result = Summary> {
  /** Name of its files and of its place in the page. */
  readonly id: string;
  readonly title: string;
  /** One or two sentences under the picture. */
  readonly caption: (result: Result) => string;
  /** One of the forms of this folder with its data; null where there is nothing to draw, which the caption then says. */
  readonly drawing: (result: Result) => Drawing | null;
  /** What a person who cannot see the picture is told. */
  readonly alt: (result: Result) => string;
  readonly table: (result: Result) => Table;
}

/** Width of every chart. */
export const WIDTH = 928;

/** Width of a chart on a phone. */
export const NARROW = 358;

/** How what belongs together is drawn: its name in the legend, and what tells it apart, with and without colour. */
export interface Look {
  readonly name: string;
  readonly tone: Tone;
  readonly dash?: readonly number[];
  readonly shape?: string;
}

/** Looks of these names in the order of the palette, from its place `first` on. */
export function looksOf(names: readonly string[], first = 0): readonly Look[] {
  return names.map((name, place) => ({
    name,
    tone: cycled(STRATEGY_TONES, first + place),
    dash: cycled(STRATEGY_DASHES, place),
    shape: cycled(STRATEGY_SHAPES, place),
  }));
}

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

/** Looks that a strategy has in every chart. */
export function strategyLooks(results: OfStrategies): readonly Look[] {
  return looksOf(strategyLabels(results));
}

/** Unit of the time that strategies are compared by. */
export function timeScale(summary: Summary): Scale {
  return workScale(Math.max(...summary.strategies.map(({ measures }) => measures.instrumentTime.value)));
}
