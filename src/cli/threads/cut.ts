import type { Strategy } from '../../scenario/load.js';
import { regionCount } from '../../scenario/samples.js';
import { stretchesOf } from '../../study/work/alone.js';
import type { Answer, Errand, Order, Play } from '../../study/work/order.js';

/** A stretch of an errand's order, and where its answer goes. */
export interface Stretch {
  readonly order: Order;
  readonly put: (answer: Answer) => void;
}

/** Images for which it is worth to hand a task to a thread: a few milliseconds of work. */
const LEAST = 600;
/** Images of a task of a large order. */
const MOST = 60_000;
/** Tasks that a large order makes for each thread, so that all of them end at about the same time. */
const TASKS = 8;

/**
 * Errands as tasks for threads: orders of many replications cut into stretches, those of few put together. Answers reach
 * each errand in the order of its replications, whichever stretch is done first.
 */
export function* tasksOf(errands: Iterable<Errand>, threads: number): Generator<readonly Stretch[]> {
  let task: Stretch[] = [];
  let weight = 0;
  for (const { order, take } of errands) {
    const images = imagesOf(order.play);
    const whole = images * (order.to - order.from + 1);
    const wanted = Math.min(MOST, Math.max(LEAST, whole / (TASKS * threads)));
    const inOrder = new InOrder(take);
    for (const stretch of stretchesOf(order, Math.max(1, Math.floor(wanted / images)))) {
      task.push({ order: stretch, put: inOrder.next() });
      weight += images * (stretch.to - stretch.from + 1);
      if (weight < LEAST) continue;
      yield task;
      [task, weight] = [[], 0];
    }
  }
  if (task.length > 0) yield task;
}

/** Hands answers over in the order in which places for them were asked for. */
class InOrder {
  private readonly waiting = new Map<number, Answer>();
  private places = 0;
  private given = 0;

  constructor(private readonly take: Errand['take']) {}

  next(): Stretch['put'] {
    const place = this.places;
    this.places += 1;
    return (answer) => {
      this.waiting.set(place, answer);
      for (let first = this.waiting.get(this.given); first !== undefined; first = this.waiting.get(this.given)) {
        this.waiting.delete(this.given);
        this.given += 1;
        this.take(first);
      }
    };
  }
}

/** Images that are planned in one replication of all strategies of a play. */
export function imagesOf(play: Play): number {
  return strategiesOf(play).reduce((sum, { settings: { plan } }) => sum + regionCount(plan) * plan.passes.length, 0);
}

function strategiesOf(play: Play): readonly Strategy[] {
  switch (play.kind) {
    case 'strategies':
      return play.strategies;
    case 'drawn':
      return play.scenario.strategies;
    case 'continuations':
      return play.courses.map(({ strategy }) => strategy);
  }
}
