/** A place in a file, counted from 1. */
export interface Place {
  readonly line: number;
  readonly column: number;
}

/** Something wrong with the text itself, before its meaning is looked at. */
export interface TextFault extends Place {
  readonly message: string;
}

/** Where keys and values stand. */
export class Places {
  readonly #keys = new Map<string, Place>();
  readonly #values = new Map<string, Place>();

  enterKey(path: Path, place: Place): void {
    this.#keys.set(pathKey(path), place);
  }

  enterValue(path: Path, place: Place): void {
    this.#values.set(pathKey(path), place);
  }

  /** Whether a value is written at a path. */
  has(path: Path): boolean {
    return this.#values.has(pathKey(path));
  }

  /** Of a key; of the value where a list has no key; of what holds it where nothing is written there. */
  ofKey(path: Path): Place {
    const at = pathKey(path);
    return this.#keys.get(at) ?? this.#values.get(at) ?? this.#outer(path);
  }

  /** Of a value; of what should hold it where nothing is written there. */
  ofValue(path: Path): Place {
    return this.#values.get(pathKey(path)) ?? this.#outer(path);
  }

  #outer(path: Path): Place {
    return path.length === 0 ? { line: 1, column: 1 } : this.ofKey(path.slice(0, -1));
  }
}

export type Path = readonly (string | number)[];

export function pathKey(path: Path): string {
  return path.join('\u0000');
}

export function startsWith(path: Path, start: Path): boolean {
  return start.length <= path.length && start.every((key, depth) => path[depth] === key);
}
