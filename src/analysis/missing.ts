/** What stands in a table where nothing is to be said. Common usage, no source. */
const MISSING = new Set(['', 'n/a', 'na', 'n.a.', '#n/a', 'n.d.', 'nan', 'null', '-', '--', '–', '—']);

/** Whether a cell of a table says nothing. */
export function isMissing(text: string): boolean {
  return MISSING.has(text.trim().toLowerCase());
}
