/** The key by which events are ordered. */
export interface EventKey {
  /** Simulated time, whole microseconds. */
  readonly time: number;
  /** Order among events of one time: lower comes first. */
  readonly rank: number;
  /** Order among events of one time and rank: the earlier scheduled comes first. */
  readonly sequence: number;
}

/** Whether event `a` comes before event `b`: by time, then rank, then sequence. The one place that defines the order. */
export function comesBefore(a: EventKey, b: EventKey): boolean {
  if (a.time !== b.time) return a.time < b.time;
  if (a.rank !== b.rank) return a.rank < b.rank;
  return a.sequence < b.sequence;
}

/** Events waiting for their time: a binary heap in the order of `comesBefore`. */
export class EventQueue<E extends EventKey> {
  readonly #heap: E[] = [];

  /** Number of events in the queue. */
  get size(): number {
    return this.#heap.length;
  }

  /** The first event, left in the queue; undefined if there is none. */
  peek(): E | undefined {
    return this.#heap[0];
  }

  /** Adds an event; O(log size). */
  push(event: E): void {
    const heap = this.#heap;
    let hole = heap.length;
    heap.push(event);
    while (hole > 0) {
      const above = (hole - 1) >> 1;
      const parent = heap[above];
      if (parent === undefined || !comesBefore(event, parent)) break;
      heap[hole] = parent;
      hole = above;
    }
    heap[hole] = event;
  }

  /** Takes the first event out; undefined if there is none; O(log size). */
  pop(): E | undefined {
    const heap = this.#heap;
    const first = heap[0];
    const last = heap.pop();
    if (last !== undefined && heap.length > 0) this.#sinkFromTop(last);
    return first;
  }

  #sinkFromTop(event: E): void {
    const heap = this.#heap;
    let hole = 0;
    for (;;) {
      let below = 2 * hole + 1;
      let child = heap[below];
      if (child === undefined) break;
      const right = heap[below + 1];
      if (right !== undefined && comesBefore(right, child)) {
        child = right;
        below += 1;
      }
      if (!comesBefore(child, event)) break;
      heap[hole] = child;
      hole = below;
    }
    heap[hole] = event;
  }
}
