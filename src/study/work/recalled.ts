import type { Answer, Errand, Order } from './order.js';
import type { Work } from './work.js';

/** A stretch of an order whose answer is there already. */
export interface KnownStretch {
  readonly from: number;
  readonly to: number;
  /** Gives the answer; called once at most. */
  readonly read: () => Answer;
}

/** Answers of earlier runs, and what becomes of new ones. */
export interface Memory {
  /** What is known of an order: stretches of it in the order of replications, apart from each other. */
  readonly known: (order: Order) => readonly KnownStretch[];
  /** Is told of every stretch that was carried out. */
  readonly keep: (stretch: Order, answer: Answer) => void;
}

/**
 * The same work, which has only that carried out which is not known yet. As an answer depends on its order alone, the result
 * is the same to the byte.
 */
export function* recalled<Result>(work: Work<Result>, memory: Memory): Work<Result> {
  let step = work.next(false);
  while (step.done !== true) step = work.next(yield unknownOf(step.value, memory));
  return step.value;
}

function* unknownOf(errands: Iterable<Errand>, memory: Memory): Generator<Errand> {
  for (const { order, take } of errands) {
    const queue = new Queue(take);
    let next = order.from;
    for (const stretch of memory.known(order)) {
      if (stretch.from > next) yield queue.missing({ ...order, from: next, to: stretch.from - 1 }, memory);
      queue.known(stretch);
      next = stretch.to + 1;
    }
    if (next <= order.to) yield queue.missing({ ...order, from: next }, memory);
  }
}

/** A stretch of an order in the queue: answers that came for it, or can be read, and how many replications are to come. */
interface Place {
  readonly answers: (() => Answer)[];
  awaited: number;
}

/** Hands over what is known and what is carried out in the order of replications, whichever comes first. */
class Queue {
  private readonly places: Place[] = [];

  constructor(private readonly take: Errand['take']) {}

  known({ read }: KnownStretch): void {
    this.places.push({ answers: [read], awaited: 0 });
    this.handOver();
  }

  missing(order: Order, memory: Memory): Errand {
    const place: Place = { answers: [], awaited: order.to - order.from + 1 };
    this.places.push(place);
    return {
      order,
      take: (answer) => {
        const from = order.to - place.awaited + 1;
        place.awaited -= answer[0].count;
        memory.keep({ ...order, from, to: order.to - place.awaited }, answer);
        place.answers.push(() => answer);
        this.handOver();
      },
    };
  }

  private handOver(): void {
    for (let place = this.places.at(0); place !== undefined; place = this.places.at(0)) {
      for (const answer of place.answers.splice(0)) this.take(answer());
      if (place.awaited > 0) return;
      this.places.shift();
    }
  }
}
