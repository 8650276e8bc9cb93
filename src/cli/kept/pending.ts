import { Collector } from '../../study/collector.js';
import type { Answer, Order } from '../../study/work/order.js';
import type { Kept } from './kept-file.js';
import { orderKey } from './order-key.js';
import { partNames } from './part-names.js';

/** A stretch that grows while the next ones follow upon it. */
interface Growing {
  readonly order: Order;
  to: number;
  readonly answers: Answer[];
}

/** Answers that are not written yet; those of neighbouring stretches are put together. */
export class PendingAnswers {
  private readonly ends = new Map<string, Growing>();
  private all: Growing[] = [];
  private held = 0;

  /** How many numbers are held. */
  get numbers(): number {
    return this.held;
  }

  add(stretch: Order, answer: Answer): void {
    const key = orderKey(stretch);
    const end = this.ends.get(`${key} ${stretch.from}`);
    const growing = end ?? { order: stretch, to: stretch.to, answers: [] };
    if (end === undefined) this.all.push(growing);
    growing.answers.push(answer);
    for (const { count, columns } of answer) this.held += count * Object.keys(columns).length;
    growing.to = stretch.to;
    this.ends.delete(`${key} ${stretch.from}`);
    this.ends.set(`${key} ${stretch.to + 1}`, growing);
  }

  /** Gives out everything, and is empty afterwards. */
  takeAll(): readonly Kept[] {
    const all = this.all.map(({ order, to, answers }) => ({
      ...{ key: orderKey(order), from: order.from, to, strategies: partNames(order.play) },
      answer: joined(order, answers),
    }));
    this.all = [];
    this.ends.clear();
    this.held = 0;
    return all;
  }
}

function joined({ wants }: Order, answers: readonly Answer[]): Answer {
  return answers[0].map((_, part) => {
    const collector = new Collector(wants);
    collector.reserve(answers.reduce((sum, answer) => sum + answer[part].count, 0));
    for (const answer of answers) collector.append(answer[part]);
    return collector.batch();
  });
}
