import type { TextFault } from '../scenario/places.js';

/** More faults of one kind than this help nobody. */
const MOST_OF_A_KIND = 10;

/**
 * Tells faults in the order in which they stand, `line` putting each into words; of one kind, which differ only in what was
 * read, at most ten, and then how many more there are.
 */
export function faultLines<Fault extends TextFault>(
  faults: readonly Fault[],
  line: (fault: Fault) => string,
): readonly string[] {
  const kinds = new Map<string, Fault[]>();
  for (const fault of faults) {
    const kind = fault.message.replace(/`[^`]*`/gu, '');
    kinds.set(kind, [...(kinds.get(kind) ?? []), fault]);
  }
  const shown = new Set([...kinds.values()].flatMap((alike) => alike.slice(0, MOST_OF_A_KIND)));
  const more = [...kinds.values()].filter(({ length }) => length > MOST_OF_A_KIND);
  return [
    ...faults.filter((fault) => shown.has(fault)).map(line),
    ...more.map(
      ([first, ...rest]) => `… and ${rest.length + 1 - MOST_OF_A_KIND} more like the one in line ${first.line}`,
    ),
  ];
}

/** A place as editors and terminals link it behind the name of a file. */
export function placeOf({ line, column }: TextFault): string {
  return `${line}:${column}`;
}

/** What is said of a fault: of a scenario with the path of the value. */
export function messageOf({ path = '', message }: TextFault & { readonly path?: string }): string {
  return path === '' ? message : `${path}: ${message}`;
}
