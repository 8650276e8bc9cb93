import type { Config } from 'vega-lite';
import { NEUTRALS } from '../palette.js';

export const FONT = 'system-ui, -apple-system, "Segoe UI", Roboto, "Helvetica Neue", Arial, sans-serif';

const ink = NEUTRALS.ink.light;
const soft = NEUTRALS.soft.light;
const line = NEUTRALS.line.light;
const faint = NEUTRALS.faint.light;

/** The one look of all charts. Colours are those of light pages; the page exchanges them for custom properties. */
export function chartConfig(): Config {
  return {
    background: NEUTRALS.paper.light,
    font: FONT,
    padding: 6,
    view: { stroke: null },
    axis: {
      labelColor: soft,
      labelFontSize: 12,
      labelLimit: 0,
      titleColor: ink,
      titleFontSize: 12.5,
      titleFontWeight: 'normal',
      titlePadding: 10,
      gridColor: faint,
      domainColor: line,
      tickColor: line,
      tickSize: 4,
      labelPadding: 5,
    },
    legend: {
      labelColor: ink,
      labelFontSize: 12,
      labelLimit: 0,
      titleColor: soft,
      titleFontSize: 12,
      titleFontWeight: 'normal',
      symbolSize: 110,
      symbolStrokeWidth: 2,
      rowPadding: 5,
      columnPadding: 18,
    },
    header: { labelColor: ink, labelFontSize: 12.5, labelLimit: 0, titleColor: soft, titleFontWeight: 'normal' },
    title: { color: ink, fontSize: 13, fontWeight: 600, anchor: 'start', offset: 8 },
    text: { color: ink, fontSize: 12 },
    aria: false,
  };
}
