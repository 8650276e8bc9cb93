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

  get isEmpty(): boolean {
    return this.#heap.length === 0;
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
      if (!comesBefore(event, parent)) break;
      heap[hole] = parent;
      hole = above;
    }
    heap[hole] = event;
  }

  /** Takes the first event out; undefined if there is none; O(log size). */
  pop(): E | undefined {
    const first = this.peek();
    const last = this.#heap.pop();
    if (last !== undefined && this.#heap.length > 0) this.#sinkFromTop(last);
    return first;
  }

  #sinkFromTop(event: E): void {
    const heap = this.#heap;
    let hole = 0;
    for (let child = 1; child < heap.length; child = 2 * hole + 1) {
      if (child + 1 < heap.length && comesBefore(heap[child + 1], heap[child])) child += 1;
      if (!comesBefore(heap[child], event)) break;
      heap[hole] = heap[child];
      hole = child;
    }
    heap[hole] = event;
  }
}
