import { useLayoutEffect, useRef } from 'preact/hooks';

const OPAQUE = 255;

interface GreyProps {
  /** Pixels along a side. */
  readonly side: number;
  /** 0 to 255, row by row; null where there is nothing yet. */
  readonly heights: Uint8Array | null;
  /** How many rows are shown. */
  readonly rows?: number;
  readonly label: string;
}

/** Heights in plain grey: high is bright. */
export function Grey({ side, heights, rows = side, label }: GreyProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useLayoutEffect(() => {
    const context = canvas.current?.getContext('2d') ?? null;
    if (context === null) return;
    const pixels = context.createImageData(side, side);
    const { data } = pixels;
    for (let place = 0; heights !== null && place < side * rows; place += 1) {
      data.fill(heights[place], place * 4, place * 4 + 3);
      data[place * 4 + 3] = OPAQUE;
    }
    context.putImageData(pixels, 0, 0);
  }, [heights, rows]);
  return <canvas ref={canvas} width={side} height={side} role="img" aria-label={label} />;
}
