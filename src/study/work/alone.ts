import { carryOut } from './carry-out.js';
import type { Errand, Order } from './order.js';
import type { Work } from './work.js';

/** Replications of a stretch; the study hears of its progress as often. */
const STRETCH = 64;

/** Carries out a study's orders in place, one after the other, and gives its result. */
export function alone<Result>(work: Work<Result>): Result {
  for (let step = work.next(false); ; step = work.next(false)) {
    if (step.done === true) return step.value;
    for (const errand of step.value) run(errand);
  }
}

function run({ order, take }: Errand): void {
  for (const stretch of stretchesOf(order, STRETCH)) take(carryOut(stretch));
}

/** An order in stretches of at most so many replications. */
export function stretchesOf(order: Order, most: number): readonly Order[] {
  const count = Math.max(0, Math.ceil((order.to - order.from + 1) / most));
  return Array.from({ length: count }, (_, i) => {
    const from = order.from + i * most;
    return { ...order, from, to: Math.min(order.to, from + most - 1) };
  });
}
