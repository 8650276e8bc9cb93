import type { FoundLeaf } from './schema-walk.js';
import { numberIn, rangeOf, type Written, type WrittenRange } from './ranges.js';
import { dataAt, type RawMap } from './schema-walk.js';

/**
 * Values of one map that must ascend: neither end of a range may pass a neighbour. The middle of a step's time is free of
 * that, since `withEnd` carries its neighbours along.
 */
const ASCENDING = [
  ['usual', 'p90'],
  ['min', 'mode', 'max'],
];
const CENTRES = ['usual', 'mode'];

/** The values beside the middle of a step's time, which say how far it spreads; none beside another value. */
export function stepTimesBeside(key: string): readonly string[] {
  const order = CENTRES.includes(key) ? ASCENDING.find((names) => names.includes(key)) : undefined;
  return order?.filter((name) => name !== key) ?? [];
}

/** Chances of one map that add up to 1 at most. */
const SHARING = ['newApex', 'breaks'];

/** A range cut back to what the values beside it in the same map allow; null where nothing is left. */
export function withinSiblings(found: FoundLeaf, filled: RawMap, range: WrittenRange | null): WrittenRange | null {
  const key = String(found.path.at(-1));
  const sibling = (name: string | undefined): Written | null => {
    return name === undefined ? null : asWritten(dataAt(filled, [...found.path.slice(0, -1), name]));
  };
  if (range === null) return null;
  let { low, high } = range;
  const isBounded = found.path.includes('steps') && !CENTRES.includes(key);
  const order = isBounded ? ASCENDING.find((names) => names.includes(key)) : undefined;
  if (order !== undefined) {
    low = further(found, low, sibling(order[order.indexOf(key) - 1]), 1);
    high = further(found, high, sibling(order[order.indexOf(key) + 1]), -1);
  }
  const other = SHARING.includes(key) ? sibling(SHARING.find((name) => name !== key)) : null;
  if (typeof other === 'number' && typeof high === 'number') high = Math.min(high, Number((1 - other).toPrecision(12)));
  return low === high ? null : rangeOf(low, high);
}

/** Of an end and a neighbour the one that lies further up (`sense` 1) or down (-1). */
function further(found: FoundLeaf, end: Written, neighbour: Written | null, sense: 1 | -1): Written {
  const [a, b] = [numberIn(found.leaf, end), numberIn(found.leaf, neighbour)];
  return a !== null && b !== null && neighbour !== null && sense * (b - a) > 0 ? neighbour : end;
}

/** A value as a person writes it, null where it is no single one. */
export function asWritten(value: unknown): Written | null {
  return typeof value === 'number' || typeof value === 'string' ? value : null;
}
