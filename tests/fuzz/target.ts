import fc from 'fast-check';

/** Something that is held to a promise by cases of all kinds. */
export interface Target<Case> {
  /** What is promised, in a few words. */
  readonly promise: string;
  readonly cases: fc.Arbitrary<Case>;
  /** Throws where the promise is broken; says in a word what became of the case. */
  readonly check: (one: Case) => string | Promise<string>;
  /** Only every so many cases, where one takes long; 1 unless given. */
  readonly every?: number;
}

export interface Fuzzed {
  readonly cases: number;
  /** How many cases became what. */
  readonly became: Readonly<Record<string, number>>;
  /** Most processor seconds of a case. */
  readonly slowest: number;
  /** Null where the promise was kept: else the smallest case that was found, and what it broke. */
  readonly failure: string | null;
}

/** Processor seconds that a case may take. */
export const MOST_SECONDS = 2;

/** Checks a target on cases drawn from a seed; stops at the first that breaks its promise, made as small as can be. */
export async function fuzz<Case>(
  target: Target<Case>,
  seed: number,
  cases: number,
  onCase: () => void = () => undefined,
): Promise<Fuzzed> {
  const became: Record<string, number> = {};
  let slowest = 0;
  const property = fc.asyncProperty(target.cases, async (one) => {
    onCase();
    const before = process.cpuUsage();
    const word = await target.check(one);
    const { user, system } = process.cpuUsage(before);
    const seconds = (user + system) / 1e6;
    slowest = Math.max(slowest, seconds);
    became[word] = (became[word] ?? 0) + 1;
    if (seconds > MOST_SECONDS) throw new Error(`a case took ${seconds.toFixed(1)} s`);
  });
  const found = await fc.check(property, { seed, numRuns: cases });
  return { cases: found.numRuns, became, slowest, failure: found.failed ? broken(found) : null };
}

function broken<Case>({
  errorInstance,
  counterexample,
  numShrinks,
  counterexamplePath,
  seed,
}: fc.RunDetails<[Case]>): string {
  const error = errorInstance instanceof Error ? (errorInstance.stack ?? errorInstance.message) : String(errorInstance);
  const where = `seed ${seed}, path ${counterexamplePath}, made smaller ${numShrinks} times`;
  return `${error}\n${where}\n${fc.stringify(counterexample)}`;
}
