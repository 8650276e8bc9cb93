import { fillDefaults } from './defaults.js';
import type { Path } from './document.js';
import { type Faults, placeInStrategy } from './faults.js';
import { writtenPath } from './paths.js';
import { type Parsed, parseWith, type Problem, withoutEchoes } from './problems.js';
import { type Scenario, scenarioSchema, type WorkflowName } from './schema/scenario.js';
import { entryOf, isMap, type RawMap } from './schema-walk.js';
import { overlay, type Override } from './strategies.js';

/** One way of working, with the whole scenario as it follows it. */
export interface Strategy {
  readonly name: string;
  readonly workflow: WorkflowName;
  readonly settings: Scenario;
}

/** The shared part and all strategies, typed and in the units used inside. */
export interface Compared {
  readonly base: Scenario;
  readonly strategies: readonly Strategy[];
}

export interface LoadedScenario extends Compared {
  /** As written, before defaults; plain data that can be handed to a worker. */
  readonly raw: RawMap;
}

/** Parses the shared part, then each strategy laid over it. */
export function assemble(raw: RawMap, faults: Faults): LoadedScenario | null {
  const filled = withDefaults(raw);
  const base = parseWith(scenarioSchema, filled);
  if (!base.ok)
    for (const problem of withoutEchoes(base.problems))
      faults.add(problem.path, writtenPath(filled, problem.path), problem.at, problem.message);
  const written = entryOf(raw, 'strategies');
  const strategies: Strategy[] = [];
  for (let index = 0; Array.isArray(written) && index < Math.min(written.length, 50); index += 1) {
    const overlaid = overlay(filled, index);
    const parsed = parseWith(scenarioSchema, overlaid.raw);
    report(overlaid.problems, parsed, overlaid.overrides, overlaid.raw, index, faults);
    const own = base.ok ? base.value.strategies[index] : undefined;
    if (parsed.ok && own !== undefined)
      strategies.push({ name: own.name, workflow: own.workflow, settings: parsed.value });
  }
  return base.ok ? { raw, base: base.value, strategies } : null;
}

/** The shared part with every default filled in as a person would write it; the strategies as they are written. */
export function withDefaults(raw: RawMap): RawMap {
  const filled = fillDefaults(scenarioSchema, { ...raw, strategies: undefined });
  return {
    ...(isMap(filled) ? filled : {}),
    ...(Object.hasOwn(raw, 'strategies') ? { strategies: raw['strategies'] } : {}),
  };
}

function report(
  own: readonly Problem[],
  parsed: Parsed<Scenario>,
  overrides: readonly Override[],
  raw: RawMap,
  index: number,
  faults: Faults,
): void {
  for (const problem of own) faults.add(problem.path, writtenPath(raw, problem.path), problem.at, problem.message);
  if (parsed.ok) return;
  for (const problem of withoutEchoes(parsed.problems)) {
    const shared = faults.has(problem.path, problem.at, problem.message);
    const place = placeInStrategy(overrides, problem.path);
    if (place?.own === true || !shared) {
      const path: Path = place?.path ?? ['strategies', index];
      faults.add(path, writtenPath(raw, problem.path), problem.at, problem.message);
    }
  }
}
