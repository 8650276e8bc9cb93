import { NEUTRALS } from '../palette.js';
import { textWidth } from '../text-width.js';

/** Pixels to the left of a picture that the longest of these names needs. */
export function nameRoom(names: readonly string[]): number {
  return Math.max(...names.map((name) => textWidth(name, 12))) + 12;
}

/** One name beside a picture of this height, `gap` pixels to the left of it. */
export function rowName(
  name: string,
  gap: number,
  height: number,
): {
  data: { values: { name: string }[] };
  mark: { type: 'text'; align: 'right'; baseline: 'middle'; fontSize: number; color: string };
  encoding: { x: { value: number }; y: { value: number }; text: { field: string } };
} {
  return {
    data: { values: [{ name }] },
    mark: { type: 'text', align: 'right', baseline: 'middle', fontSize: 12, color: NEUTRALS.ink.light },
    encoding: { x: { value: -gap }, y: { value: height / 2 }, text: { field: 'name' } },
  };
}
