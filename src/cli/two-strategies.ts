import type { LoadedScenario } from '../scenario/load.js';
import { suggestion } from '../scenario/nearest.js';
import { BREAKEVEN_MEASURES, type BreakEvenMeasure } from '../study/breakeven/results.js';
import { Failure } from './failure.js';
import { strategyNamed } from './study.js';

/** A measure as it is typed: `operator-time`. */
function optionOf(measure: BreakEvenMeasure): string {
  return measure.replace(/[A-Z]/gu, (letter) => `-${letter.toLowerCase()}`);
}

const MEASURES = BREAKEVEN_MEASURES.map(optionOf);

/** Options of commands that set two strategies against each other. */
export const TWO_STRATEGIES = {
  between: { type: 'string', requiresArg: true, describe: 'Name of one strategy [default: the first]' },
  and: {
    type: 'string',
    requiresArg: true,
    describe: 'Name of the other [default: the first that works the other way]',
  },
  measure: {
    type: 'string',
    requiresArg: true,
    default: 'time',
    describe: `What is compared: ${MEASURES.join(', ')}`,
  },
} as const;

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

export function measureMeant(text: string): BreakEvenMeasure {
  const measure = BREAKEVEN_MEASURES.find((each) => optionOf(each) === text);
  if (measure !== undefined) return measure;
  throw new Failure(`--measure wants ${MEASURES.join(', ')}, not \`${text}\`${suggestion(text, MEASURES)}`);
}
