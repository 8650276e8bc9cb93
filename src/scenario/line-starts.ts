import type { Place } from './places.js';

/**
 * Where the lines of a text begin. (The line counter of the YAML library leaves out lines of what it cannot read, which is
 * just where places are wanted.)
 */
export class LineStarts {
  readonly #starts: readonly number[];

  constructor(text: string) {
    this.#starts = [0, ...Array.from(text.matchAll(/\r\n|\r|\n/gu), ({ index, 0: end }) => index + end.length)];
  }

  /** Line and column, from 1, of an offset in characters. */
  placeOf(offset: number): Place {
    let low = 0;
    let high = this.#starts.length;
    while (high - low > 1) {
      const middle = Math.floor((low + high) / 2);
      if ((this.#starts[middle] ?? 0) <= offset) low = middle;
      else high = middle;
    }
    return { line: low + 1, column: offset - (this.#starts[low] ?? 0) + 1 };
  }
}
