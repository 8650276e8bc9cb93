/** Signs that act on a terminal or turn the order of what it shows; ends of lines, as tables have them too, and tabs are no such. */
const ACTING = /(?![\t\n]|\r\n)\p{Cc}|[\p{Bidi_Control}\p{Zl}\p{Zp}]/gu;
/** Tones that this program sets, as codes of ISO 6429, are let through where there are colours. */
const ACTING_BUT_TONES = new RegExp(`(?!\\u001b\\[(?:1|2|22|31|33|39)m)(?:${ACTING.source})`, 'gu');

/** Text whose signs all only show: whatever a file, a name or an option says, nothing of it acts on the terminal. */
export function harmless(text: string, mayBeToned: boolean): string {
  return text.replace(mayBeToned ? ACTING_BUT_TONES : ACTING, written);
}

/** A text that stays on its line: a name with an end of a line in it would else pass for a message of this program. */
export function inOneLine(text: string): string {
  return text.replace(/[\n\r]/g, written);
}

function written(sign: string): string {
  return `\\u{${(sign.codePointAt(0) ?? 0).toString(16)}}`;
}
