import { distance } from 'fastest-levenshtein';
import { show } from './show.js';

/** Keys of earlier versions, and what they are called now. */
const RENAMED: Readonly<Record<string, readonly string[]>> = {
  law: ['distribution', 'model'],
  spread: ['geometricSd'],
};

/** What a key of an earlier version is called now; null where it is no such key, or none of the candidates. */
function renamed(read: string, candidates: readonly string[]): string | null {
  const names = Object.hasOwn(RENAMED, read) ? RENAMED[read] : [];
  return names.find((name) => candidates.includes(name)) ?? null;
}

/** The candidate that was evidently meant; null where none is near enough to be a slip of the pen. */
export function nearest(read: string, candidates: readonly string[]): string | null {
  const now = renamed(read, candidates);
  if (now !== null) return now;
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
    : `; expected one of ${candidates.map((candidate) => `\`${candidate}\``).join(', ')}`;
}

/** What to say of a key that should not stand where these may. */
export function unknownKey(key: string, candidates: readonly string[]): string {
  const now = renamed(key, candidates);
  return now === null
    ? `unknown key ${show(key)}${suggestion(key, candidates)}`
    : `${show(key)} is now called ${show(now)}`;
}
