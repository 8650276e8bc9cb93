import type { Errand } from './order.js';

/**
 * A study that goes on by itself: a generator that yields errands which do not wait for each other, and goes on when all of
 * them are answered. It is then told whether it was stopped by hand; if so, answers may end early, no more will come, and
 * it concludes with what it has. What it does in between depends on the answers alone, so whoever carries out its orders,
 * the result is the same to the byte: `alone` does it in place. Errands may be made while they are asked for, and are asked
 * for once, so that others are at work on the first ones while the next are made.
 */
export type Work<Result> = Generator<Iterable<Errand>, Result, boolean>;

/** Thrown in a study that was stopped by hand before it had anything to say. */
export class Stopped extends Error {
  override readonly name = 'Stopped';

  constructor() {
    super('stopped by hand');
  }
}

/**
 * Has errands run that a study cannot do without.
 * @throws Stopped where not all of them could be
 */
export function* answered(errands: Iterable<Errand>): Work<void> {
  if (yield errands) throw new Stopped();
}

/** Works that do not wait for each other: their errands go out together, round by round. Results in the order of the works. */
export function* together<Result>(works: readonly Work<Result>[]): Work<readonly Result[]> {
  const results: { readonly place: number; readonly result: Result }[] = [];
  let open = works.map((work, place) => ({ work, place }));
  let isStopped = false;
  while (open.length > 0) {
    const waiting = open;
    const next: typeof open = [];
    let asked = 0;
    const errands = function* (wasStopped: boolean): Generator<Errand> {
      for (const each of waiting) {
        asked += 1;
        const step = each.work.next(wasStopped);
        if (step.done === true) {
          results.push({ place: each.place, result: step.value });
        } else {
          next.push(each);
          yield* step.value;
        }
      }
    };
    isStopped = yield errands(isStopped);
    // Who was stopped may not have asked for all.
    open = [...next, ...waiting.slice(asked)];
  }
  return results.sort((a, b) => a.place - b.place).map(({ result }) => result);
}
