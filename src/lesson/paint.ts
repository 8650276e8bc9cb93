import { element } from './dom.js';

const OPAQUE = 255;

/** A canvas of so many pixels a side, to be named once something is on it. */
export function emptyCanvas(side: number): HTMLCanvasElement {
  return element('canvas', { width: side, height: side, role: 'img', 'aria-label': 'No image yet' });
}

/** Paints the rows from one to before another, in plain grey: high is bright. */
export function paint(
  into: HTMLCanvasElement,
  { columns }: { readonly columns: number },
  heights: Uint8Array,
  from: number,
  to: number,
): void {
  const context = into.getContext('2d');
  if (context === null) return;
  const pixels = context.createImageData(columns, to - from);
  const { data } = pixels;
  for (let place = 0; place < columns * (to - from); place += 1) {
    data.fill(heights[from * columns + place], place * 4, place * 4 + 3);
    data[place * 4 + 3] = OPAQUE;
  }
  context.putImageData(pixels, 0, from);
}
