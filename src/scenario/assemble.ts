import { fillDefaults } from './defaults.js';
import { type Faults, placeInStrategy } from './faults.js';
import { writtenPath } from './paths.js';
import { type Parsed, type Problem, readAs, withoutEchoes } from './problems.js';
import type { RegisterValue } from './register.js';
import { MOST_STRATEGIES, type Scenario, scenarioSchema } from './schema/scenario.js';
import { isMap, type RawMap } from './schema-walk.js';
import type { LaidStrategy, Overlaid } from './strategies.js';
import type { UnknownInput } from './uncertainty.js';

/** The shared part and all strategies, typed and in the units used inside. Plain data, which can be handed to a worker. */
export interface LoadedScenario {
  readonly base: Scenario;
  readonly strategies: readonly LaidStrategy[];
  /** Every value of the shared part, with what stands behind it. */
  readonly register: readonly RegisterValue[];
  /** What is known only so far. */
  readonly inputs: readonly UnknownInput[];
  /** Three letters. */
  readonly currency: string;
}

/** A strategy as the checks of whole plans see it. */
export interface Followed extends LaidStrategy {
  readonly overlaid: Overlaid;
}

/** The shared part with every default filled in as a person would write it; the strategies as they are written. */
export function withDefaults(raw: RawMap): RawMap {
  const filled = fillDefaults(scenarioSchema, { ...raw, strategies: undefined });
  return {
    ...(isMap(filled) ? filled : {}),
    ...(Object.hasOwn(raw, 'strategies') ? { strategies: firstOf(raw['strategies']) } : {}),
  };
}

/** One more than there may be, which is refused; who writes a thousand need not wait for all of them. */
function firstOf(strategies: unknown): unknown {
  return Array.isArray(strategies) ? strategies.slice(0, MOST_STRATEGIES + 1) : strategies;
}

/** Reads the shared part, then each strategy laid over it. Null where something is refused, which is among the faults then. */
export function assembled(
  filled: RawMap,
  overlaid: readonly Overlaid[],
  faults: Faults,
): { readonly base: Scenario; readonly strategies: readonly Followed[] } | null {
  const base = readAs(scenarioSchema, filled);
  if (!base.ok) for (const problem of withoutEchoes(base.problems)) enter(problem, filled, faults);
  const strategies = overlaid.flatMap((strategy, index): readonly Followed[] => {
    for (const problem of strategy.problems) enter(problem, filled, faults);
    const read = readAs(scenarioSchema, strategy.raw);
    enterOwn(read, strategy, index, faults);
    if (!read.ok || !base.ok) return [];
    const { name, workflow } = base.value.strategies[index];
    return [{ name, workflow, settings: read.value, own: strategy.own, overlaid: strategy }];
  });
  return base.ok ? { base: base.value, strategies } : null;
}

export function enter(problem: Problem, document: RawMap, faults: Faults): void {
  faults.add(problem.path, writtenPath(document, problem.path), problem.at, problem.message);
}

/** What is wrong with a strategy as a whole, where it is not the shared part's fault, which is known by now. */
function enterOwn(read: Parsed<Scenario>, overlaid: Overlaid, index: number, faults: Faults): void {
  if (read.ok) return;
  for (const problem of withoutEchoes(read.problems)) {
    const place = placeInStrategy(overlaid.overrides, problem.path);
    if (place?.own !== true && faults.has(problem.path, problem.at, problem.message)) continue;
    faults.add(
      place?.path ?? ['strategies', index],
      writtenPath(overlaid.raw, problem.path),
      problem.at,
      problem.message,
    );
  }
}
