import { distance } from 'fastest-levenshtein';

/** The candidate that was evidently meant; null where none is near enough to be a slip of the pen. */
export function nearest(read: string, candidates: readonly string[]): string | null {
  let best: string | null = null;
  let least = Infinity;
  for (const candidate of candidates) {
    const away = slips(plain(read), plain(candidate));
    if (away < least) [best, least] = [candidate, away];
  }
  return best !== null && least <= Math.max(1, Math.min(read.length, best.length) * 0.4) ? best : null;
}

/** Letters to change; letters only put in another order count as one. */
function slips(read: string, candidate: string): number {
  const inOrder = (text: string) => Array.from(text).sort().join('');
  return read !== candidate && inOrder(read) === inOrder(candidate) ? 1 : distance(read, candidate);
}

/** `line_rate`, `LineRate` and `line-rate` are all near `lineRate`. */
function plain(text: string): string {
  return text
    .slice(0, 100)
    .toLowerCase()
    .replace(/[_\- ]/gu, '');
}

/** A sentence end: `; did you mean `x`?` or the list of what may stand. */
export function suggestion(read: unknown, candidates: readonly string[]): string {
  const near = typeof read === 'string' ? nearest(read, candidates) : null;
  if (near !== null) return `; did you mean \`${near}\`?`;
  return candidates.length === 0
    ? ''
    : `; wanted is one of ${candidates.map((candidate) => `\`${candidate}\``).join(', ')}`;
}
