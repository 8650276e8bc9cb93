/** Parts that are held at most: of a thousand rows each, some fifty megabytes. */
const MOST = 400;

/**
 * The same parts, the first of them made while others are at work; the rest are made as they are read.
 * @param work that goes on elsewhere; whether it succeeds is heard by whoever waits for it
 */
export async function madeMeanwhile(parts: Iterable<string>, work: Promise<unknown>): Promise<Iterable<string>> {
  const source = parts[Symbol.iterator]();
  const made: string[] = [];
  const others = { areAtWork: true };
  const end = () => {
    others.areAtWork = false;
  };
  work.then(end, end);
  while (others.areAtWork && made.length < MOST) {
    const next = source.next();
    if (next.done === true) return made;
    made.push(next.value);
    // So that what comes from elsewhere is heard.
    await new Promise((resume) => {
      setTimeout(resume);
    });
  }
  return following(made, source);
}

function* following(made: Iterable<string>, source: Iterator<string>): Generator<string> {
  yield* made;
  for (let next = source.next(); next.done !== true; next = source.next()) yield next.value;
}
