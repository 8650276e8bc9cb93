import { imageRow, tipOnGrid } from '../surface/dilation.js';
import { greys, heightRange } from '../surface/relief.js';
import { SHOWN_SIDE, specimenOf } from '../surface/specimen.js';
import { shapeOf, type TipLook } from '../surface/tip-look.js';
import type { Question, Scenarios } from '../task.js';

export interface TipPictureAsked extends Question {
  readonly replication: number;
  readonly region: number;
  /** The tip before and after what came in mid-scan, and the fraction of the scan at which it came. */
  readonly before: TipLook;
  readonly after: TipLook;
  readonly changesAt: number;
}

/** A piece of a region, as the tip shows it and as it is: heights row by row on one scale, 0 to 255. */
export interface TipPicture {
  readonly columns: number;
  readonly rows: number;
  readonly shown: Uint8Array;
  readonly real: Uint8Array;
  /** Side of the piece, and the height that the scale spans, in nanometres. */
  readonly side: number;
  readonly range: number;
}

/** The image of a piece of a region by grey-scale dilation, line by line with the tip as it was then. */
export async function* tipPicture(asked: TipPictureAsked, scenarios: Scenarios): AsyncGenerator<TipPicture> {
  const luck = scenarios.luck(asked).replication(asked.replication);
  const surface = specimenOf(luck, asked.region);
  const { columns, rows } = surface;
  const [before, after] = [asked.before, asked.after].map((look) => tipOnGrid(shapeOf(look), surface));
  const image = new Float64Array(columns * rows);
  for (let row = 0; row < rows; row += 1)
    image.set(imageRow(surface, row < asked.changesAt * rows ? before : after, row), row * columns);
  yield await Promise.resolve({
    ...{ columns, rows, side: SHOWN_SIDE, range: heightRange(surface) },
    shown: greys(image, surface),
    real: greys(surface.heights, surface),
  });
}
