import type { Task } from './job.js';

/**
 * A study that goes on by itself: a generator that yields tasks which do not wait for each other, and goes on when all of
 * them are done. It is then told whether it was interrupted; if so, results may end early, no more will come, and it
 * concludes with what it has. What it does in between depends on the results alone, so whoever runs its jobs, what it comes
 * to is the same to the byte: `runInProcess` does it in place. Tasks may be made while they are asked for, and are asked for
 * once, so that others are at work on the first ones while the next are made.
 */
export type Work<Result> = Generator<Iterable<Task>, Result, boolean>;

/** Thrown in a study that was interrupted before it had anything to say. */
export class Stopped extends Error {
  override readonly name = 'Stopped';

  constructor() {
    super('interrupted');
  }
}

/**
 * Has tasks run that a study cannot do without.
 * @throws Stopped where not all of them could be
 */
export function* completed(tasks: Iterable<Task>): Work<void> {
  if (yield tasks) throw new Stopped();
}

/**
 * Works that do not wait for each other: their tasks go out together, round by round. Results in the order of the works.
 * @param atOnce so many works are begun before some of them have ended, as each takes its share of memory
 */
export function* together<Result>(works: readonly Work<Result>[], atOnce = Infinity): Work<readonly Result[]> {
  const results: { readonly place: number; readonly result: Result }[] = [];
  const ahead = works.map((work, place) => ({ work, place }));
  let open: typeof ahead = [];
  while (open.length + ahead.length > 0) {
    const asked = [...open];
    open = [];
    const stepOf = function* (each: (typeof ahead)[number]): Generator<Task> {
      const step = each.work.next(false);
      if (step.done === true) {
        results.push({ place: each.place, result: step.value });
      } else {
        open.push(each);
        yield* step.value;
      }
    };
    const tasks = function* (): Generator<Task> {
      for (let each = asked.shift(); each !== undefined; each = asked.shift()) yield* stepOf(each);
      while (open.length < atOnce && ahead.length > 0) for (const each of ahead.splice(0, 1)) yield* stepOf(each);
    };
    if (yield tasks()) {
      for (const { work, place } of [...asked, ...open, ...ahead]) results.push({ place, result: concluded(work) });
      break;
    }
  }
  return results.sort((a, b) => a.place - b.place).map(({ result }) => result);
}

/** What work comes to that was interrupted. @throws Stopped where that is nothing */
function concluded<Result>(work: Work<Result>): Result {
  for (;;) {
    const step = work.next(true);
    if (step.done === true) return step.value;
  }
}
