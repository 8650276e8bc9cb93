import type { TopLevelSpec } from 'vega-lite';
import type { Perform } from '../execution/machine/worker-pool.js';
import type { Draw } from '../report/pictures.js';
import type { Words } from '../report/render.js';

/** A chart for a thread to draw. */
export interface ChartMessage {
  readonly kind: 'chart';
  readonly spec: TopLevelSpec;
  readonly words: Words;
}

/** Draws on threads; by nothing where there are none. */
export function drawOn(perform: Perform | null): Draw | null {
  if (perform === null) return null;
  return async (spec, words) => {
    const message: ChartMessage = { kind: 'chart', spec, words };
    const svg = await perform(message);
    if (typeof svg !== 'string') throw new Error('this is no picture');
    return svg;
  };
}
