import type { Answer, Errand, Order } from './order.js';
import { Collector } from '../collector.js';
import { answered, type Work } from './work.js';

/** Number `number` (from 1) of `of` shares of the replications of a study. */
export interface Share {
  readonly number: number;
  readonly of: number;
}

/** The share of an order's replications; together the shares are all of them, and none is twice. Null where it is empty. */
export function shareOf(order: Order, { number, of }: Share): Order | null {
  const count = order.to - order.from + 1;
  const from = order.from + Math.floor((count * (number - 1)) / of);
  const to = order.from + Math.floor((count * number) / of) - 1;
  return from > to ? null : { ...order, from, to };
}

export interface AnsweredOrder {
  readonly order: Order;
  readonly answer: Answer;
}

/**
 * Of a study the orders that it begins with, answered for one share of their replications; these do not depend on any answer,
 * so all shares together are what the study goes on from.
 * @throws Stopped where it was stopped by hand
 */
export function* shareWork(study: Work<unknown>, share: Share): Work<readonly AnsweredOrder[]> {
  const begun = study.next(false);
  const first = begun.done === true ? [] : [...begun.value];
  const collected = first.flatMap((errand) => {
    const order = shareOf(errand.order, share);
    return order === null ? [] : [collecting(order)];
  });
  yield* answered(collected.map(({ errand }) => errand));
  return collected.map(({ errand: { order }, parts }) => ({ order, answer: parts.map((part) => part.batch()) }));
}

function collecting(order: Order): { readonly errand: Errand; readonly parts: readonly Collector[] } {
  const parts: Collector[] = [];
  const take: Errand['take'] = (answer) => {
    for (const [place, batch] of answer.entries()) {
      parts[place] ??= new Collector(order.wants);
      parts[place].append(batch);
    }
  };
  return { errand: { order, take }, parts };
}

/** Work that goes on behind the errands that it began with. */
export function* goingOn<Result>(begun: Work<Result>): Work<Result> {
  let step = begun.next(false);
  while (step.done !== true) step = begun.next(yield step.value);
  return step.value;
}
