/**
 * A list that a test asserts something about, item by item, which says nothing where there is none.
 * @throws Error where it is empty
 */
export function nonEmpty<Item>(items: Iterable<Item>): readonly Item[] {
  const list = [...items];
  if (list.length === 0) throw new Error('There is nothing here to assert anything about.');
  return list;
}

/** A list that may hold nothing in some of the cases that a test goes through. */
export function perhapsNone<Item>(items: Iterable<Item>): readonly Item[] {
  return [...items];
}
