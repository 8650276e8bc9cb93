import { PAIR_MEASURES, type PairMeasure } from '../analysis/compared-measures.js';
import { RANGE_HELP } from '../analysis/vary/range.js';
import { readVaried, type Varied } from '../analysis/vary/varied.js';
import { Failure } from '../scenario/failure.js';
import type { LoadedScenario } from '../scenario/load.js';
import { suggestion } from '../scenario/nearest.js';
import { list, meaning, oneOf, text, whole } from './options.js';

export const SEED = text('Seed text in place of that of the scenario');

/** So many replications, and no rule of stopping. */
export function exactly(min: number) {
  return meaning('Run exactly so many replications', whole({ min, max: 1_000_000 }));
}

/** @param what becomes of the range, such as `along which to look`; `then` says what comes of several */
export function varied(what: string, then: string, example: string) {
  return list(
    `PATH=RANGE ${what}; RANGE is ${RANGE_HELP}. ${then}`,
    `which value? --vary PATH=RANGE, such as --vary ${example}`,
  );
}

/** The values to vary, each as `PATH=RANGE`; one with an unknown key or that is refused by the schema is a usage error. */
export function variedIn(loaded: LoadedScenario, texts: readonly string[], strategy: string | null): readonly Varied[] {
  return texts.map((each) => {
    const reading = readVaried(loaded, each, strategy);
    if (!reading.ok) throw new Failure(`--vary ${reading.message}`);
    return reading.value;
  });
}

export function refuseThird(vary: readonly string[]): void {
  if (vary.length > 2) throw new Failure('--vary can be given twice at most');
}

/** The name of a strategy, the first one where none is given; an unknown one is a usage error. */
export function strategyNamed(loaded: LoadedScenario, wanted: string | undefined): string {
  const names = loaded.strategies.map(({ name }) => name);
  const chosen = wanted ?? names[0];
  if (names.includes(chosen)) return chosen;
  throw new Failure(`no strategy is called \`${chosen}\`${suggestion(chosen, names)}`);
}

/** A measure as it is typed: `operator-time`. */
function optionOf(measure: PairMeasure): string {
  return measure.replace(/[A-Z]/gu, (letter) => `-${letter.toLowerCase()}`);
}

const MEASURES = new Map(PAIR_MEASURES.map((measure) => [optionOf(measure), measure]));

/** Options of studies that set two strategies against each other. */
export const TWO_STRATEGIES = {
  between: text('Name of one strategy [default: the first]'),
  and: text('Name of the other [default: the first that works the other way]'),
  measure: meaning(
    `What is compared: ${[...MEASURES.keys()].join(', ')}`,
    (typed, name) => MEASURES.get(oneOf([...MEASURES.keys()])(typed, name)) ?? 'time',
    'time',
  ),
};

/** The two strategies meant. A name alone is set against the first strategy of another workflow, or the first other. */
export function twoStrategies(
  loaded: LoadedScenario,
  between: string | undefined,
  and: string | undefined,
): readonly [string, string] {
  const one = strategyNamed(loaded, between);
  const { strategies } = loaded;
  const workflow = strategies.find(({ name }) => name === one)?.workflow;
  const others = strategies.filter(({ name }) => name !== one);
  if (others.length === 0) throw new Failure('the scenario has one strategy only; there is nothing to set it against');
  const usual = others.find((other) => other.workflow !== workflow) ?? others[0];
  const other = and === undefined ? usual.name : strategyNamed(loaded, and);
  if (other === one) throw new Failure(`--between and --and both name \`${one}\``);
  return [one, other];
}
