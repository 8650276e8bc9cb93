import type { LoadedScenario, Strategy } from '../assemble.js';
import { currenciesIn } from '../currency.js';
import type { Faults } from '../faults.js';
import { leavesOf } from '../leaf-walk.js';
import { writtenPath } from '../paths.js';
import { type Path, pathKey } from '../places.js';
import { numberIn } from '../ranges.js';
import { type Scenario, scenarioSchema } from '../schema/scenario.js';
import { entryOf, isMap, type RawMap } from '../schema-walk.js';
import { show } from '../show.js';
import { resolveValue, startsWith, type ValuePlace } from '../value-path.js';
import { withValue } from '../with-value.js';
import { repeated } from './names.js';

/** Strategies of one name could not be told apart. */
export function checkStrategyNames(filled: RawMap, faults: Faults): void {
  const strategies = entryOf(filled, 'strategies');
  const names = (Array.isArray(strategies) ? strategies : []).map((strategy: unknown, index) => {
    const name = entryOf(strategy, 'name');
    return typeof name === 'string' ? name : index;
  });
  for (const index of repeated(names)) {
    const name = show(names.at(index));
    faults.add(
      ['strategies', index, 'name'],
      writtenPath(filled, ['strategies', index, 'name']),
      'value',
      `read the name ${name}, which an earlier strategy has; another is wanted`,
    );
  }
}

/** Costs in several currencies cannot be added. */
export function checkCurrencies(filled: RawMap, faults: Faults): void {
  const found = currenciesIn(filled);
  const first = found.at(0);
  for (const { path, currency } of found) {
    if (first === undefined || currency === first.currency) continue;
    const message = `read an amount in ${currency}, though ${writtenPath(filled, first.path)} is in ${first.currency}; one currency for all is wanted`;
    faults.add(path, writtenPath(filled, path), 'value', message);
  }
}

/** A kind that no strategy uses is a slip, but does no harm. */
export function checkUnusedKinds(
  { tips }: Scenario,
  strategies: readonly (Pick<Strategy, 'settings'> | null)[],
  faults: Faults,
): void {
  const used = strategies.map((strategy) => strategy?.settings.plan.passes.map(({ tip }) => tip));
  // Of a strategy that is not known nobody knows which kinds it uses.
  if (used.includes(undefined)) return;
  for (const kind of Object.keys(tips)) {
    if (!used.flat().includes(kind))
      faults.add(['tips', kind], `tips.${kind}`, 'key', `no pass uses the tip kind ${show(kind)}`, 'warning');
  }
}

/** Sources and ranges name paths that exist. */
export function checkPaths(filled: RawMap, faults: Faults): void {
  for (const part of ['sources', 'ranges'] as const) {
    const written = filled[part];
    for (const text of isMap(written) ? Object.keys(written) : []) {
      const resolved = resolveValue(filled, text);
      if (!resolved.ok) faults.add([part, text], `${part}.${text}`, 'key', resolved.message);
    }
  }
}

/** Ranges have two ends that the value itself could be, one on either side of it; not looked at where a hole is. */
export function checkRanges(loaded: LoadedScenario, faults: Faults, holes: readonly Path[] = []): void {
  for (const text of Object.keys(loaded.base.ranges)) {
    const resolved = resolveValue(loaded.raw, text);
    if (
      !resolved.ok ||
      [resolved.place.path, ['ranges', text]].some((path) =>
        holes.some((hole) => startsWith(path, hole) || startsWith(hole, path)),
      )
    )
      continue;
    checkRange(loaded, text, resolved.place, faults);
  }
}

function checkRange(loaded: LoadedScenario, text: string, place: ValuePlace, faults: Faults): void {
  const key = pathKey(place.path);
  const found = leavesOf(scenarioSchema, place.document).find(
    ({ path, leaf }) => pathKey(path) === key && 'min' in leaf,
  );
  const at = ['ranges', text];
  if (found === undefined) {
    faults.add(at, `ranges.${text}`, 'key', `${show(text)} is no single number, so it can have no range`);
    return;
  }
  const ends = loaded.base.ranges[text] ?? [];
  const wrong = ends.flatMap((end, index) => {
    const changed = withValue(loaded, text, end);
    return changed.ok ? [] : [{ index, message: changed.faults[0]?.message ?? '' }];
  });
  for (const { index, message } of wrong) faults.add([...at, index], `ranges.${text}.${index}`, 'value', message);
  if (wrong.length > 0) return;
  const [low, high] = ends.map((end) => numberIn(found.leaf, end));
  const value = numberIn(found.leaf, found.written);
  if (typeof low !== 'number' || typeof high !== 'number' || value === null) return;
  if (low >= high)
    faults.add(
      at,
      `ranges.${text}`,
      'value',
      `read ${ends.map(show).join(' to ')}; a lower end below the upper one is wanted`,
    );
  else if (value < low || value > high)
    faults.add(
      at,
      `ranges.${text}`,
      'value',
      `read ${ends.map(show).join(' to ')}; a range that holds the value itself, ${show(found.written)}, is wanted`,
    );
}
