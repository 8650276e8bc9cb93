/**
 * Widths of text for pictures that are made without a canvas. Close to a wide sans-serif and a little generous, so that
 * nothing overlaps in a page whose font we cannot know; the same on every machine, with or without a canvas library.
 */

const NARROW = /[ijlI.,:;'|!()[\]{}]/u;
const SPACE = /\s/u;
const WIDE = /[mwMW%@—…]/u;
const CAPITAL = /[\p{Lu}&#+<>=−–]/u;
const EAST_ASIAN = /[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}\p{Extended_Pictographic}]/u;

/** In units of the font size. */
function widthOf(character: string): number {
  if (NARROW.test(character)) return 0.36;
  if (SPACE.test(character)) return 0.32;
  if (WIDE.test(character)) return 0.94;
  if (CAPITAL.test(character)) return 0.72;
  return EAST_ASIAN.test(character) ? 1.05 : 0.61;
}

/** Width in pixels. */
export function textWidth(text: string, fontSize: number): number {
  let width = 0;
  for (const character of text) width += widthOf(character);
  return Math.ceil(width * fontSize);
}

/** A text in lines no wider than so many pixels, broken between words only. */
export function linesOf(text: string, fontSize: number, width: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const longer = lines.length === 0 ? word : `${lines[lines.length - 1]} ${word}`;
    if (lines.length > 0 && textWidth(longer, fontSize) <= width) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}
