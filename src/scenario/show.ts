/** What was read, short and printable, for a message: texts and numbers in backquotes, the rest by its kind. */
export function show(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (value === null) return 'nothing';
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object') return 'a map';
  return `\`${short(printable(inWords(value)))}\``;
}

function inWords(value: unknown): string {
  if (typeof value === 'string') return value;
  return typeof value === 'number' || typeof value === 'boolean' || typeof value === 'bigint'
    ? String(value)
    : typeof value;
}

function printable(text: string): string {
  return text.replace(
    /[\p{Cc}\p{Cf}\p{Cs}\u2028\u2029]/gu,
    (sign) => `\\u{${(sign.codePointAt(0) ?? 0).toString(16)}}`,
  );
}

function short(text: string): string {
  const signs = Array.from(text);
  return signs.length <= 60 ? text : `${signs.slice(0, 57).join('')}…`;
}

/** What is wrong with a value that is no text at all: missing, empty, or lacking its unit or form. */
export function notText(value: unknown, lack: string, wanted: string): string {
  if (value === undefined) return `is missing; ${wanted}`;
  if (value === null) return `nothing stands here; ${wanted}`;
  return typeof value === 'number' && lack !== ''
    ? `read ${show(value)}, ${lack}; ${wanted}`
    : `read ${show(value)}; ${wanted}`;
}
