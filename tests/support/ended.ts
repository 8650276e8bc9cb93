/** What a procedure comes to where all that it asks for is at hand. */
export function ended<Result>(procedure: Generator<unknown, Result, undefined>): Result {
  for (;;) {
    const step = procedure.next();
    if (step.done === true) return step.value;
  }
}
