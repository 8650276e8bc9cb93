import fc from 'fast-check';
import { corpusOf, type Form, keep } from './corpus.js';

/** Something that is held to a promise by cases of all kinds. */
export interface Target<Case> {
  /** What is promised, in a few words. */
  readonly promise: string;
  readonly cases: fc.Arbitrary<Case>;
  /** How a case is kept in the corpus. */
  readonly form: Form<Case>;
  /** Throws where the promise is broken; says in a word what became of the case. */
  readonly check: (one: Case) => string | Promise<string>;
  /** Only every so many cases, where one takes long; 1 unless given. */
  readonly every?: number;
}

export interface Fuzzed {
  /** Those of the corpus among them. */
  readonly cases: number;
  readonly kept: number;
  /** How many cases became what. */
  readonly became: Readonly<Record<string, number>>;
  /** Most processor seconds of a case. */
  readonly slowest: number;
  /** Null where the promise was kept: else the smallest case that was found, and what it broke. */
  readonly failure: string | null;
}

/** What is drawn, and who is told of each case. */
export interface Drawn {
  readonly seed: number;
  readonly cases: number;
  readonly onCase?: () => void;
}

/** Processor seconds that a case may take. */
export const MOST_SECONDS = 2;

/**
 * Checks a target on the cases of its corpus, then on so many drawn from a seed; stops at the first that breaks its promise,
 * made as small as can be.
 */
export async function fuzz<Case>(
  name: string,
  target: Target<Case>,
  { seed, cases, onCase = () => undefined }: Drawn,
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
  const examples = corpusOf(name, target.form).map(({ one }): [Case] => [one]);
  const found = await fc.check(property, { seed, numRuns: examples.length + cases, examples });
  const failure = found.failed ? broken(found) : null;
  return { cases: found.numRuns, kept: examples.length, became, slowest, failure };
}

/** The same; the case that broke the promise goes into the corpus, and the smallest that became what none there does. */
export async function fuzzAndKeep<Case>(name: string, target: Target<Case>, drawn: Drawn): Promise<Fuzzed> {
  const result = await fuzz(name, target, drawn);
  const known = new Set(await Promise.all(corpusOf(name, target.form).map(async ({ one }) => target.check(one))));
  const words = Object.keys(result.became).filter((word) => !known.has(word));
  for (const word of words)
    await keepWhere(name, target, drawn, async (one) => (await target.check(one)) === word && word);
  if (result.failure !== null) await keepWhere(name, target, drawn, async (one) => breaks(target, one));
  return result;
}

async function keepWhere<Case>(
  name: string,
  { cases, form }: Target<Case>,
  { seed, cases: count, onCase = () => undefined }: Drawn,
  tells: (one: Case) => Promise<string | false>,
): Promise<void> {
  const property = fc.asyncProperty(cases, async (one) => {
    onCase();
    return (await tells(one)) === false;
  });
  const { counterexample } = await fc.check(property, { seed, numRuns: count });
  if (counterexample === null) return;
  const [one] = counterexample;
  keep(name, form, [{ why: String(await tells(one)), one }]);
}

async function breaks<Case>({ check }: Target<Case>, one: Case): Promise<string | false> {
  try {
    await check(one);
    return false;
  } catch (error) {
    return String(error).split('\n', 1)[0];
  }
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
