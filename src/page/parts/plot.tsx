/// <reference lib="dom" />
import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import uPlot from 'uplot';

/** Colours as the page has them now: a canvas knows nothing of style sheets. */
export interface Palette {
  readonly ink: string;
  readonly soft: string;
  readonly line: string;
  readonly faint: string;
  readonly paper: string;
  readonly warn: string;
  readonly strategy: (place: number) => string;
}

function paletteNow(): Palette {
  const style = getComputedStyle(document.documentElement);
  const named = (name: string) => style.getPropertyValue(`--${name}`).trim();
  return {
    ...{ ink: named('ink'), soft: named('soft'), line: named('line'), faint: named('faint') },
    ...{ paper: named('paper'), warn: named('warn') },
    strategy: (place) => named(`strategy-${(place % 8) + 1}`),
  };
}

/** Counts the changes between light, dark and paper, after each of which a canvas is painted anew. */
function useScheme(): number {
  const [changes, setChanges] = useState(0);
  useEffect(() => {
    const queries = ['(prefers-color-scheme: dark)', 'print'].map((query) => matchMedia(query));
    const change = () => {
      setChanges((count) => count + 1);
    };
    for (const query of queries) query.addEventListener('change', change);
    return () => {
      for (const query of queries) query.removeEventListener('change', change);
    };
  }, []);
  return changes;
}

/** What is drawn, for a palette. */
export interface Drawn {
  readonly options: Omit<uPlot.Options, 'width' | 'height'>;
  readonly data: uPlot.AlignedData;
}

interface PlotProps {
  readonly height: number;
  /** What a person who cannot see the picture is told; its numbers stand in a table beside it. */
  readonly label: string;
  readonly draw: (palette: Palette) => Drawn;
}

/** A picture on a canvas, as wide as its place. */
export function Plot({ height, label, draw }: PlotProps) {
  const holder = useRef<HTMLDivElement>(null);
  const scheme = useScheme();
  useLayoutEffect(() => {
    const place = holder.current;
    if (place === null) return undefined;
    const { options, data } = draw(paletteNow());
    const chart = new uPlot({ ...options, width: place.clientWidth, height }, data, place);
    const watch = new ResizeObserver(() => {
      if (place.clientWidth > 0 && place.clientWidth !== chart.width)
        chart.setSize({ width: place.clientWidth, height });
    });
    watch.observe(place);
    return () => {
      watch.disconnect();
      chart.destroy();
    };
  }, [draw, height, scheme]);
  return <div class="plot" ref={holder} role="img" aria-label={label} />;
}

/** Axes as all pictures have them. */
export function axis(palette: Palette, more: uPlot.Axis): uPlot.Axis {
  return {
    stroke: palette.soft,
    grid: { stroke: palette.faint, width: 1 },
    ticks: { stroke: palette.line, width: 1, size: 4 },
    font: '12px system-ui, sans-serif',
    labelFont: '12px system-ui, sans-serif',
    labelSize: 18,
    ...more,
  };
}

/** Paints in the units of the data, inside the axes. */
export function painting(paint: (chart: uPlot, context: CanvasRenderingContext2D, pixel: number) => void) {
  return (chart: uPlot): void => {
    const { ctx: context, bbox } = chart;
    context.save();
    context.beginPath();
    context.rect(bbox.left, bbox.top, bbox.width, bbox.height);
    context.clip();
    paint(chart, context, devicePixelRatio);
    context.restore();
  };
}

/** A dashed vertical line over the whole height, at a place in the units of the canvas. */
export function dashedUpright(
  chart: uPlot,
  context: CanvasRenderingContext2D,
  x: number,
  dashes: readonly number[],
): void {
  const { top, height } = chart.bbox;
  context.setLineDash([...dashes]);
  context.beginPath();
  context.moveTo(x, top);
  context.lineTo(x, top + height);
  context.stroke();
  context.setLineDash([]);
}
