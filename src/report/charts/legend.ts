import { textWidth } from '../text-width.js';
import type { Look } from './chart.js';

/** What stands for a look in the legend, and where. */
export interface LegendStyle {
  readonly symbol?: 'stroke' | 'square';
  readonly title?: string;
  readonly orient?: 'top' | 'bottom';
}

/** A legend as vega-lite has it. */
export interface Legend {
  readonly title: string | null;
  readonly titleOrient?: 'left';
  readonly orient: 'top' | 'bottom';
  readonly columns: number;
  readonly symbolType?: 'stroke' | 'square';
  readonly symbolSize?: number;
  readonly symbolOpacity?: number;
  readonly symbolStrokeWidth?: number;
}

/** A legend of these looks that fits the width. */
export function legendOf(
  looks: readonly Look[],
  { symbol, title, orient = 'top' }: LegendStyle,
  width: number,
): Legend {
  const widest = Math.max(...looks.map(({ name }) => textWidth(name, 12)));
  return {
    title: title ?? null,
    ...(title === undefined ? {} : { titleOrient: 'left' }),
    orient,
    columns: Math.max(
      1,
      Math.min(looks.length, Math.floor((width - (title === undefined ? 0 : textWidth(title, 12))) / (widest + 54))),
    ),
    symbolOpacity: 1,
    ...(symbol === undefined ? {} : { symbolType: symbol }),
    ...(symbol === 'stroke' ? { symbolSize: 500 } : {}),
    ...(symbol === 'square' ? { symbolStrokeWidth: 0 } : {}),
  };
}
