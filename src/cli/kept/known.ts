import type { Order } from '../../study/work/order.js';
import type { KnownStretch } from '../../study/work/recalled.js';
import type { Kept } from './kept-file.js';
import { orderKey } from './order-key.js';

/** Answers of earlier runs by the keys of their orders; each of them is given out once. */
export class KnownAnswers {
  private readonly byKey = new Map<string, Kept[]>();
  private given = 0;

  add(kept: Kept): void {
    const found = this.byKey.get(kept.key);
    if (found === undefined) this.byKey.set(kept.key, [kept]);
    else found.push(kept);
  }

  /** Replications that were given out so far, of all strategies together. */
  get count(): number {
    return this.given;
  }

  /** Stretches that lie within an order and do not overlap, in the order of replications. */
  of(order: Order): readonly KnownStretch[] {
    if (this.byKey.size === 0) return [];
    const found = this.byKey.get(orderKey(order)) ?? [];
    let next = order.from;
    const fitting: Kept[] = [];
    for (const kept of found.toSorted((a, b) => a.from - b.from)) {
      if (kept.from < next || kept.to > order.to) continue;
      fitting.push(kept);
      next = kept.to + 1;
    }
    for (const kept of fitting) found.splice(found.indexOf(kept), 1);
    return fitting.map(({ from, to, answer }) => ({ from, to, read: () => this.giveOut(answer) }));
  }

  private giveOut(answer: Kept['answer']): Kept['answer'] {
    for (const { count } of answer) this.given += count;
    return answer;
  }
}
