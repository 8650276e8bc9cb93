import type { TopLevelSpec } from 'vega-lite';
import type { Words } from '../../report/render.js';
import type { Order } from '../../study/work/order.js';

/** A play as it is handed to threads: in memory that all share, and read by each of them once. */
export interface PackedPlay {
  /** The same for the same play, as long as the program runs. */
  readonly key: number;
  readonly bytes: Uint8Array;
  /** Images of all its strategies, by which it is judged how much memory it takes. */
  readonly images: number;
}

/** A stretch of an order as it is handed to a thread. */
export interface PackedStretch extends Omit<Order, 'play'> {
  readonly play: PackedPlay;
}

/** What a thread is asked to do. */
export type ThreadTask =
  | { readonly kind: 'stretches'; readonly stretches: readonly PackedStretch[] }
  | { readonly kind: 'picture'; readonly spec: TopLevelSpec; readonly words: Words };
