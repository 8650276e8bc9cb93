/** User text made safe for the places where reports show it. Every report goes through these functions. */

import escape from 'escape-html';

/** One line without control, bidirectional or broken characters. */
export function plainText(text: string): string {
  return text
    .replace(/[\p{Cc}\p{Zl}\p{Zp}]+/gu, ' ')
    .replace(/\p{Bidi_Control}/gu, '')
    .replace(/\p{Surrogate}/gu, '\ufffd')
    .trim();
}

/** Several lines without signs that XML does not allow or that turn the order of a line: what others have drawn or written of names. */
export function plainLines(text: string): string {
  return text.replace(/(?!\n)[\p{Cc}\p{Zl}\p{Zp}]/gu, ' ').replace(/[\p{Bidi_Control}\p{Surrogate}]/gu, '');
}

/** For HTML and SVG, in text and in quoted attributes. */
export function html(text: string): string {
  return escape(plainText(text));
}

/** For CommonMark and its table extension: the text shows as it is, nothing in it is markup or a link. */
export function markdown(text: string): string {
  return plainText(text)
    .replace(/[\\`*_{}[\]#|~$!@]/g, '\\$&')
    .replaceAll('://', '\\://')
    .replace(/www\./gi, (start) => `${start.slice(0, -1)}\\.`)
    .replace(/^[-+=](?=[-+=]*(?:\s|$))/, '\\$&')
    .replace(/^(\d+)([.)])(?=\s|$)/, '$1\\$2')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;');
}

const UNIT = /(?<=\d) (?=(?:%|[fpnuµμmkMGT]?(?:m|s|N|Hz|Pa)|min|h|deg|points|[A-Z]{3})(?![\p{L}\d]))/gu;

/** A number and the unit behind it are kept on one line. */
export function unbroken(text: string): string {
  return text.replace(UNIT, '\u00a0');
}

const SEGMENTER = new Intl.Segmenter('en', { granularity: 'grapheme' });

/** Text in which each unit is a character; it needs no dictionary, which is slow. */
const PRINTABLE = /^[ -~]*$/;

/** Characters as a reader counts them. */
export function graphemes(text: string): readonly string[] {
  if (PRINTABLE.test(text)) return text.split('');
  return Array.from(SEGMENTER.segment(text), ({ segment }) => segment);
}

/** At most `length` characters, with an ellipsis where something was cut. */
export function shortened(text: string, length: number): string {
  const characters = graphemes(plainText(text));
  return characters.length <= length
    ? characters.join('')
    : `${characters
        .slice(0, length - 1)
        .join('')
        .trimEnd()}…`;
}

/** Short labels for names, one each and no two alike. */
export function uniqueLabels(names: readonly string[], length: number): readonly string[] {
  const seen = new Set<string>();
  return names.map((name) => {
    let label = shortened(name, length);
    for (let number = 2; seen.has(label); number += 1) label = `${shortened(name, length - 4)} (${String(number)})`;
    seen.add(label);
    return label;
  });
}
