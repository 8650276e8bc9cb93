import type { Path, Place, Places } from './places.js';
import type { Override } from './strategies.js';

/** Something wrong with a scenario, with its place in the file, counted from 1. */
export interface Fault {
  /** What was read, and what is wanted. */
  readonly message: string;
  /** Path as a person would write it; empty for the file as a whole. */
  readonly path: string;
  readonly line: number;
  readonly column: number;
  readonly severity: 'error' | 'warning';
}

/** More than this many help nobody. */
const MOST_SHOWN = 100;

/** Collects faults, each once. */
export class Faults {
  readonly #places: Places | null;
  readonly #found = new Map<string, Fault>();

  constructor(places: Places | null) {
    this.#places = places;
  }

  get anyError(): boolean {
    return [...this.#found.values()].some((fault) => fault.severity === 'error');
  }

  addAt(place: Place, path: string, message: string, severity: Fault['severity'] = 'error'): void {
    const key = keyOf(place, message);
    if (!this.#found.has(key))
      this.#found.set(key, { message, path, line: place.line, column: place.column, severity });
  }

  /** A fault of the file itself, at a key or a value. */
  add(path: Path, written: string, at: 'key' | 'value', message: string, severity: Fault['severity'] = 'error'): void {
    this.addAt(this.#placeOf(path, at), written, message, severity);
  }

  /** Whether the file itself says something at a path. */
  isWritten(path: Path): boolean {
    return this.#places?.has(path) ?? false;
  }

  has(path: Path, at: 'key' | 'value', message: string): boolean {
    return this.#found.has(keyOf(this.#placeOf(path, at), message));
  }

  /** By place in the file; at most `MOST_SHOWN`, the last of which then counts the rest. */
  sorted(): readonly Fault[] {
    const all = [...this.#found.values()].sort((a, b) => a.line - b.line || a.column - b.column);
    if (all.length <= MOST_SHOWN) return all;
    const more = all.length - MOST_SHOWN + 1;
    const last = all.at(MOST_SHOWN - 1);
    const rest = all.slice(MOST_SHOWN - 1).some((fault) => fault.severity === 'error');
    return [
      ...all.slice(0, MOST_SHOWN - 1),
      {
        message: `… and ${more} more from here on`,
        path: '',
        line: last?.line ?? 1,
        column: last?.column ?? 1,
        severity: rest ? 'error' : 'warning',
      },
    ];
  }

  #placeOf(path: Path, at: 'key' | 'value'): Place {
    if (this.#places === null) return { line: 1, column: 1 };
    return at === 'key' ? this.#places.ofKey(path) : this.#places.ofValue(path);
  }
}

/** What makes two faults the same one. */
function keyOf({ line, column }: Place, message: string): string {
  return `${line}:${column}:${message}`;
}

/** Where a strategy says what stands at `path`: its own line where it overrides it, or what is next to it; null where it is all shared. */
export function placeInStrategy(
  overrides: readonly Override[],
  path: Path,
): { readonly path: Path; readonly own: boolean } | null {
  let best: { readonly path: Path; readonly own: boolean } | null = null;
  let longest = 0;
  for (const { target, writtenAt } of overrides) {
    const common = commonLength(target, path);
    if (common === 0 || common < longest) continue;
    const own = common === target.length || common === path.length;
    if (common > longest || (own && best?.own !== true)) {
      longest = common;
      best = { path: common === target.length ? [...writtenAt, ...path.slice(common)] : writtenAt, own };
    }
  }
  return best;
}

function commonLength(a: Path, b: Path): number {
  let n = 0;
  while (n < a.length && n < b.length && a[n] === b[n]) n += 1;
  return n;
}
