import { fillDefaults } from './defaults.js';
import { type Faults, placeInStrategy } from './faults.js';
import { writtenPath } from './paths.js';
import { type Parsed, parseWith, type Problem, withoutEchoes } from './problems.js';
import type { RegisterValue } from './register.js';
import { MOST_STRATEGIES, type Scenario, scenarioSchema, type WorkflowName } from './schema/scenario.js';
import { entryOf, isMap, type RawMap } from './schema-walk.js';
import type { Followed } from './checks/run.js';
import { type Overlaid, overlay } from './strategies.js';

/** One way of working, with the whole scenario as it follows it. */
export interface Strategy {
  readonly name: string;
  readonly workflow: WorkflowName;
  readonly settings: Scenario;
}

/** The shared part and all strategies, typed and in the units used inside. Plain data, which can be handed to a worker. */
export interface LoadedScenario {
  readonly base: Scenario;
  readonly strategies: readonly Strategy[];
  /** Every value of the shared part, with what stands behind it. */
  readonly register: readonly RegisterValue[];
  /** Three letters. */
  readonly currency: string;
  /** The shared part as a person would write it, every default filled in; strategies as written. */
  readonly raw: RawMap;
}

export interface Assembled {
  readonly base: Scenario;
  readonly strategies: readonly Strategy[];
  /** As `strategies`, with what each overrides. */
  readonly followed: readonly Followed[];
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

/** Parses the shared part, then each strategy laid over it. Null where the shared part does not parse; look at the faults too. */
export function assembleFilled(filled: RawMap, faults: Faults): Assembled | null {
  const base = parseWith(scenarioSchema, filled);
  if (!base.ok) for (const problem of withoutEchoes(base.problems)) enter(problem, filled, faults);
  const written = entryOf(filled, 'strategies');
  // With more the shared part does not parse, which is all that is said.
  const count = Array.isArray(written) && written.length <= MOST_STRATEGIES ? written.length : 0;
  const strategies: Strategy[] = [];
  const followed: Followed[] = [];
  for (let index = 0; index < count; index += 1) {
    const overlaid = overlay(filled, index);
    for (const problem of overlaid.problems) enter(problem, filled, faults);
    const parsed = parseWith(scenarioSchema, overlaid.raw);
    enterOwn(parsed, overlaid, index, faults);
    const own = base.ok ? base.value.strategies[index] : undefined;
    if (!parsed.ok || own === undefined) continue;
    const strategy = { name: own.name, workflow: own.workflow, settings: parsed.value };
    strategies.push(strategy);
    followed.push({ ...strategy, overlaid });
  }
  return base.ok ? { base: base.value, strategies, followed } : null;
}

function enter(problem: Problem, document: RawMap, faults: Faults): void {
  faults.add(problem.path, writtenPath(document, problem.path), problem.at, problem.message);
}

/** What is wrong with a strategy as a whole, where it is not the shared part's fault, which is known by now. */
function enterOwn(parsed: Parsed<Scenario>, overlaid: Overlaid, index: number, faults: Faults): void {
  if (parsed.ok) return;
  for (const problem of withoutEchoes(parsed.problems)) {
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
