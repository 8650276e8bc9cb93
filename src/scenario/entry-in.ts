/** The entry of a record under a key of its own; undefined where it has none. */
export function entryIn<T>(record: Readonly<Record<string, T>>, key: string): T | undefined {
  return Object.hasOwn(record, key) ? record[key] : undefined;
}
