import type { Path } from './places.js';

/** Thrown where a check comes to a value that could not be read. */
class Unsound extends Error {}

/** What `run` gives; `otherwise` where it comes to a value that could not be read. */
export function soundly<T>(run: () => T, otherwise: T): T {
  try {
    return run();
  } catch (reason) {
    if (reason instanceof Unsound) return otherwise;
    throw reason;
  }
}

/** The same data, in which nobody gets at what stands at or below one of the holes: see `soundly`. */
export function guarded<T extends object>(data: T, holes: readonly Path[]): T {
  return holes.length === 0 ? data : within(data, holes, 0);
}

/** `holes` are those below this value, which itself stands `depth` deep. */
function within<T extends object>(data: T, holes: readonly Path[], depth: number): T {
  return new Proxy(data, {
    get(target, key, receiver): unknown {
      const value: unknown = Reflect.get(target, key, receiver);
      if (typeof key === 'symbol' || typeof value === 'function') return value;
      const below = holes.filter((hole) => hole.length <= depth || String(hole[depth]) === key);
      if (below.some((hole) => hole.length <= depth + 1)) throw new Unsound();
      return below.length > 0 && typeof value === 'object' && value !== null ? within(value, below, depth + 1) : value;
    },
  });
}
